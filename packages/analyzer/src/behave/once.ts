/** The same value at every call, made at the first. */
export function once<T>(make: () => T): () => T {
  let value: { readonly is: T } | undefined;
  return () => {
    value ??= { is: make() };
    return value.is;
  };
}
