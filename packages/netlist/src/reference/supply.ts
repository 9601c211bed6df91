// Supply volts of a 12 V system by what the vehicle is doing. Common practice, no source; a 24 V system doubles them.
/** Least, usual and most volts of the supply while the engine rests and while it runs. */
export const SUPPLY_12V = {
  rest: { least: 11.5, usual: 12.6, most: 12.9 },
  running: { least: 13.2, usual: 14.2, most: 15.0 },
} as const;

/** Winding temperatures of the cold and the hot corner, °C. Common practice, no source. */
export const COIL_CELSIUS = { cold: -20, usual: 20, hot: 105 } as const;
