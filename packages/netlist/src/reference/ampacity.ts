// Continuous current of copper conductors with 105 °C insulation, alone, at 30 °C: 33 CFR 183.425 Table 5, read whole at
// federal.elaws.us. Sizes between its rows by interpolation of the logarithms, worked out beforehand into a finer table,
// since Math.log may differ in its last digits between engines.
const ROWS: readonly (readonly [areaMm2: number, amps: number])[] = [
  [0.35, 13.3],
  [0.5, 15.7],
  [0.75, 19.1],
  [0.823, 20], // published
  [1, 22],
  [1.3087, 25], // published
  [1.5, 27.6],
  [2, 34],
  [2.0809, 35], // published
  [2.5, 38.7],
  [3, 42.7],
  [3.3088, 45], // published
  [4, 50.6],
  [5.2612, 60], // published
  [6, 65.1],
  [8, 77.8],
  [8.3656, 80], // published
  [10, 93.5],
  [12, 109.7],
  [13.3018, 120], // published
  [16, 134.6],
  [20, 154.5],
  [21.1506, 160], // published
  [25, 174.2],
  [26.6705, 180], // published
  [30, 194.6],
  [33.6308, 210], // published
  [35, 215.6],
  [40, 235.7],
  [42.4077, 245], // published
  [50, 272.8],
  [53.4751, 285], // published
  [60, 306.5],
  [67.4309, 330], // published
  [70, 338.3],
  [85.0288, 385], // published
  [95, 412.6],
  [107.219, 445], // published
  [120, 477.4],
];

/** Amps that a conductor of `areaMm2` carries for ever: 105 °C insulation, 30 °C around it, not in a bundle. */
export function ampacity(areaMm2: number): number {
  let [lowerArea, lowerAmps] = ROWS[0] ?? [1, 0];
  if (areaMm2 <= lowerArea) return (lowerAmps * areaMm2) / lowerArea;
  for (const [area, amps] of ROWS) {
    if (area >= areaMm2) return lowerAmps + ((amps - lowerAmps) * (areaMm2 - lowerArea)) / (area - lowerArea || 1);
    [lowerArea, lowerAmps] = [area, amps];
  }
  return lowerAmps;
}
