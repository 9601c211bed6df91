/** The words of what is typed, in small letters. */
export const wordsOf = (typed: string): readonly string[] => typed.toLowerCase().split(/\s+/).filter(Boolean);

/** Items in whose text every typed word occurs, in any case; those that come `first` before the others. */
export function withWords<T>(
  items: readonly T[],
  words: readonly string[],
  textOf: (item: T) => string,
  first: (item: T) => boolean,
): readonly T[] {
  const found = items.filter((item) => {
    const text = textOf(item).toLowerCase();
    return words.every((w) => text.includes(w));
  });
  return [...found.filter(first), ...found.filter((item) => !first(item))];
}
