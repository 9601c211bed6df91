/** Resistivity of annealed copper at 20 °C, Ω·mm²/m: IEC 60028, 1/58 (from memory, high confidence). */
export const COPPER_OHM_MM2_PER_M = 0.017241;

/** Change of copper resistance per kelvin, referred to 20 °C: 1/254.5, AC 43.13-1B page 11-22 (read). */
export const COPPER_PER_KELVIN = 1 / 254.5;

/** Resistance in ohms of a copper conductor at 20 °C. `lengthM` in metres, `areaMm2` in mm². */
export function copperOhms(lengthM: number, areaMm2: number): number {
  return (COPPER_OHM_MM2_PER_M * lengthM) / areaMm2;
}

/** The factor by which a copper resistance known at 20 °C changes at `celsius`. */
export function copperFactor(celsius: number): number {
  return 1 + COPPER_PER_KELVIN * (celsius - 20);
}
