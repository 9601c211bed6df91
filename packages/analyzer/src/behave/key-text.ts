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

/** Values of `bits` bits each, fifteen bits a code. */
export function bitsText(list: Uint8Array, bits: number): string {
  const perCode = Math.floor(15 / bits);
  const codes = new Array<number>(Math.ceil(list.length / perCode));
  for (let i = 0, k = 0; k < codes.length; k++) {
    let word = 0;
    for (const end = Math.min(i + perCode, list.length); i < end; i++) word = (word << bits) | (list[i] as number);
    codes[k] = word;
  }
  return textOf(codes);
}
