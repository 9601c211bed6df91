/** Width of a text in units at `size` px. On the wide side, so that it also holds where another typeface stands in. */
export function textWidth(words: string, size: number, bold = false): number {
  let em = 0;
  for (const c of words) em += " .,:;'|Iijl".includes(c) ? 0.34 : /[A-Z0-9mw]/.test(c) ? 0.7 : 0.6;
  return (em * size * (bold ? 1.06 : 1)) / 10;
}
