// American wire gauge. Areas follow ASTM B258, d = 0.127 mm x 92^((36-n)/39) (formula from memory; its end points
// d(36) = 0.005 in and d(0000) = 0.46 in were read). A table rather than Math.pow: last digits of pow differ between
// engines, and wire sizes decide verdicts.
const AREA_MM2: ReadonlyMap<string, number> = new Map([
  ["30", 0.0509],
  ["29", 0.0642],
  ["28", 0.081],
  ["27", 0.1021],
  ["26", 0.1288],
  ["25", 0.1624],
  ["24", 0.2047],
  ["23", 0.2582],
  ["22", 0.3255],
  ["21", 0.4105],
  ["20", 0.5176],
  ["19", 0.6527],
  ["18", 0.823],
  ["17", 1.0378],
  ["16", 1.3087],
  ["15", 1.6502],
  ["14", 2.0809],
  ["13", 2.624],
  ["12", 3.3088],
  ["11", 4.1723],
  ["10", 5.2612],
  ["9", 6.6342],
  ["8", 8.3656],
  ["7", 10.5488],
  ["6", 13.3018],
  ["5", 16.7732],
  ["4", 21.1506],
  ["3", 26.6705],
  ["2", 33.6308],
  ["1", 42.4077],
  ["0", 53.4751],
  ["00", 67.4309],
  ["000", 85.0288],
  ["0000", 107.2193],
]);

/** Cross-section in mm² of an AWG size, as it is written: "14", "0", "00". Undefined outside the table. */
export const awgAreaMm2 = (size: string): number | undefined => AREA_MM2.get(size);
