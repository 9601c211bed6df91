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
  const codes: number[] = [];
  let word = 0;
  let room = 15;
  for (let i = 0; i < list.length; i++) {
    if (room < bits) {
      codes.push(word);
      word = 0;
      room = 15;
    }
    word = (word << bits) | (list[i] as number);
    room -= bits;
  }
  codes.push(word);
  return textOf(codes);
}
