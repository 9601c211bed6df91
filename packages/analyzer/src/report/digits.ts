/** Four significant figures; the rest is noise. */
export const digits = (x: number): number => Number(x.toPrecision(4));
