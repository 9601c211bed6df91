/** A record with other keys. */
export const keyed = <T>(record: Readonly<Record<string, T>>, key: (key: string) => string): Record<string, T> =>
  Object.fromEntries(Object.entries(record).map(([k, v]) => [key(k), v]));

/** Keys in the order of the file, so that a value set and set back gives the same text. What is undefined is left out. */
export const inOrder = (item: Readonly<Record<string, unknown>>, { shape }: { readonly shape: object }): unknown =>
  Object.fromEntries(
    Object.keys(shape)
      .filter((k) => item[k] !== undefined)
      .map((k) => [k, item[k]]),
  );
