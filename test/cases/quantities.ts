// Numbers of a case as the text of our file. The text reads back to the very same number.

const scaled = (value: number, factor: number, small: string, plain: string): string => {
  const inSmall = Number((value / factor).toPrecision(12));
  return inSmall * factor === value && String(inSmall).length <= String(value).length
    ? `${inSmall} ${small}`
    : `${value} ${plain}`;
};

export const volts = (value: number): string => `${value} V`;
export const amps = (value: number): string => `${value} A`;
export const ohms = (value: number): string =>
  value >= 1000
    ? scaled(value, 1000, "kohm", "ohm")
    : value > 0 && value < 1
      ? scaled(value, 1e-3, "mohm", "ohm")
      : `${value} ohm`;
export const metres = (value: number): string => `${value} m`;
export const squareMm = (value: number): string => `${value} mm2`;
export const milliseconds = (value: number): string => (value >= 1000 ? scaled(value, 1000, "s", "ms") : `${value} ms`);
