/**
 * A non-decreasing current–voltage curve made of straight pieces: amps at each break point and the slopes beyond both
 * ends. Only such elements enter the solve; then the currents are unique.
 */
export interface Curve {
  readonly volts: readonly number[];
  readonly amps: readonly number[];
  readonly slopeBelow: number;
  readonly slopeAbove: number;
}

/** One straight piece: amps = amps0 + siemens × volts, on [from, to]. */
export interface Piece {
  readonly siemens: number;
  readonly amps0: number;
  readonly from: number;
  readonly to: number;
}

/** The straight pieces of a curve, from left to right. */
export function piecesOf(curve: Curve): readonly Piece[] {
  const { volts, amps } = curve;
  const first = volts[0] ?? 0;
  const firstAmps = amps[0] ?? 0;
  const pieces: Piece[] = [
    { siemens: curve.slopeBelow, amps0: firstAmps - curve.slopeBelow * first, from: -Infinity, to: first },
  ];
  for (let k = 1; k < volts.length; k++) {
    const [v0 = 0, v1 = 0, i0 = 0, i1 = 0] = [volts[k - 1], volts[k], amps[k - 1], amps[k]];
    const siemens = (i1 - i0) / (v1 - v0);
    pieces.push({ siemens, amps0: i0 - siemens * v0, from: v0, to: v1 });
  }
  const last = volts[volts.length - 1] ?? 0;
  const lastAmps = amps[amps.length - 1] ?? 0;
  pieces.push({ siemens: curve.slopeAbove, amps0: lastAmps - curve.slopeAbove * last, from: last, to: Infinity });
  return pieces;
}

/** The piece that these volts lie on. */
export function pieceAt(pieces: readonly Piece[], volts: number): Piece {
  for (const piece of pieces) if (volts <= piece.to) return piece;
  return pieces[pieces.length - 1] as Piece;
}

/** A diode of one slope: nothing below `drop`, then `ohms`. */
export const plainDiode = (drop: number, ohms: number): Curve => ({
  volts: [drop],
  amps: [0],
  slopeBelow: 0,
  slopeAbove: 1 / ohms,
});

// 0.6 V + 2 Ω, then 0.72 V + 0.25 Ω; the two lines meet at 24/35 × 0.1 A. Within 10 % of the exponential where a coil
// sets the current: common practice, checked in the project's own trials.
const KNEE_AMPS = 0.12 / 1.75;

/** The house's silicon diode. */
export const siliconDiode: Curve = {
  volts: [0.6, 0.6 + 2 * KNEE_AMPS],
  amps: [0, KNEE_AMPS],
  slopeBelow: 0,
  slopeAbove: 4,
};

/** A curve that also conducts backwards beyond `volts`, through `ohms`. */
export const withZener = (curve: Curve, volts: number, ohms: number): Curve => ({
  ...curve,
  volts: [-volts, ...curve.volts],
  amps: [0, ...curve.amps],
  slopeBelow: 1 / ohms,
});

// Filament current follows (volts / rated volts) to the power 0.55 (from memory). The powers are constants: Math.pow
// may differ in its last digits between engines, and this curve decides verdicts.
const FILAMENT: readonly (readonly [share: number, amps: number])[] = [
  [0.01, 0.0794],
  [0.05, 0.1925],
  [0.1, 0.2818],
  [0.25, 0.4665],
  [0.5, 0.683],
  [0.75, 0.8537],
  [1, 1],
  [1.25, 1.1306],
  [1.5, 1.2498],
];

/** A hot filament lamp of `amps` at `volts`; the same in both directions. */
export function filament(volts: number, amps: number): Curve {
  const up = FILAMENT.map(([v, i]) => [v * volts, i * amps] as const);
  const down = up.map(([v, i]) => [-v, -i] as const).reverse();
  const points = [...down, [0, 0] as const, ...up];
  const slope = (0.4 * amps) / volts;
  return { volts: points.map((p) => p[0]), amps: points.map((p) => p[1]), slopeBelow: slope, slopeAbove: slope };
}

/** Share of its slope that a source keeps past the most it gives: none would leave its volts open. */
const PAST_MOST = 1e-4;

/**
 * Gives current while the volts across it are below its emf, up to the most it can; above, it takes as much as
 * `backwards` lets in.
 */
export const sourceCurve = (emf: number, ohms: number, backwards: number, mostAmps: number | undefined): Curve => ({
  volts: mostAmps === undefined ? [emf] : [emf - mostAmps * ohms, emf],
  amps: mostAmps === undefined ? [0] : [-mostAmps, 0],
  slopeBelow: (mostAmps === undefined ? 1 : PAST_MOST) / ohms,
  slopeAbove: backwards,
});
