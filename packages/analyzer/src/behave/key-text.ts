// Keys of tables as texts: short, and quickly compared.

/** A call takes only so many arguments. */
const PIECE = 8192;

/** Codes below 65 536 as one text. */
export function textOf(codes: readonly number[] | Uint16Array): string {
  if (codes.length <= PIECE) return String.fromCharCode.apply(undefined, codes as number[]);
  let text = "";
  for (let i = 0; i < codes.length; i += PIECE) text += textOf(codes.slice(i, i + PIECE));
  return text;
}

/** Whole numbers as one text, two codes each: a big loom has more elements than one code can count. */
export const numbersText = (list: ArrayLike<number>): string => textOf(new Uint16Array(Uint32Array.from(list).buffer));
