import { type Points, pointsOf, type Straight } from "@loomproof/analyzer/testing";
import type { Loom } from "@loomproof/netlist";
import { lusolve, type Matrix, matrix } from "mathjs";
import { seeded } from "../seeded.ts";
import { equationsOf, placesOf, solveDense } from "./dense.ts";

// Operating points a second: one is one contact at random the other way round, diodes settled, Kirchhoff's law checked.

const SEED = 20_261_126;
/** The library is slow with large matrices. */
const LIBRARY_TIMES = 5;
const ROUNDS = 12;
const LEAST_MS = 100;
/** States that are gone through again and again. */
const STATES = 200;

export interface PointSpeed {
  readonly nodes: number;
  /** Begun with the volts of the point before, or with none. */
  readonly perSecond: number;
  readonly perSecondAfresh: number;
  /** The same linear equations, by the yardstick and by the library. */
  readonly perSecondDense: number;
  readonly perSecondLibrary: number;
  /** Newton steps of one point, on average. */
  readonly steps: number;
  /** Largest difference of any volts from the yardstick's. */
  readonly apart: number;
}

/** The solver by itself, for looms that are too large for the yardsticks. */
export function ownSpeed(loom: Loom): Pick<PointSpeed, "nodes" | "perSecond" | "perSecondAfresh" | "steps"> {
  const points = pointsOf(loom);
  return { nodes: points.nodes, ...speedOf(points, statesOf(points)) };
}

function speedOf(points: Points, states: readonly Uint8Array[]) {
  let at = 0;
  const next = () => states[at++ % STATES] as Uint8Array;
  let volts: Float64Array | undefined;
  let steps = 0;
  let solved = 0;
  const perSecond = rate(() => {
    const point = points.solve(next(), volts);
    volts = point.volts;
    steps += point.iterations;
    solved++;
  });
  const perSecondAfresh = rate(() => void points.solve(next()));
  return { perSecond, perSecondAfresh, steps: steps / solved };
}

export function pointSpeed(loom: Loom): PointSpeed {
  const points = pointsOf(loom);
  const states = statesOf(points);
  const own = speedOf(points, states);
  let at = 0;
  const systems = states.map((closed) => straightened(points, closed));
  let apart = 0;
  for (const { places, branches, volts: ours } of systems) {
    const theirs = solveDense(equationsOf(places, branches));
    for (const [n, p] of places.entries())
      if (p >= 0) apart = Math.max(apart, Math.abs((ours[n] ?? 0) - (theirs[p] ?? 0)));
  }
  const system = () => systems[at++ % STATES] as (typeof systems)[number];
  const perSecondDense = rate(() => {
    const { places, branches } = system();
    solveDense(equationsOf(places, branches));
  });
  const forLibrary = systems.slice(0, LIBRARY_TIMES).map(({ places, branches }) => {
    const { size, matrix: flat, amps } = equationsOf(places, branches);
    return { g: matrix(rowsOf(size, flat)), amps: [...amps] };
  });
  const perSecondLibrary = rate(() => {
    const { g, amps } = forLibrary[at++ % forLibrary.length] as (typeof forLibrary)[number];
    const solution: Matrix = lusolve(g, amps);
    return solution;
  }, LIBRARY_TIMES);
  return {
    nodes: points.nodes,
    ...own,
    perSecondDense,
    perSecondLibrary,
    apart,
  };
}

/** A walk of contacts at random. */
function statesOf({ gates, closed }: Points): readonly Uint8Array[] {
  const rnd = seeded(SEED);
  let now = closed;
  return Array.from({ length: STATES }, () => {
    const gate = gates[Math.floor(rnd() * gates.length)] ?? 0;
    now = now.slice();
    now[gate] = now[gate] === 1 ? 0 : 1;
    return now;
  });
}

interface Straightened {
  readonly places: Int32Array;
  readonly branches: readonly Straight[];
  readonly volts: Float64Array;
}

/** The equations of one state with each curve as straight as it is where it came to rest. */
function straightened(points: Points, closed: Uint8Array): Straightened {
  const point = points.solve(closed);
  const branches = points.straightAt(closed, point);
  return { places: placesOf(points.nodes, points.reference, branches), branches, volts: point.volts };
}

const rowsOf = (size: number, flat: Float64Array): number[][] =>
  Array.from({ length: size }, (_, i) => [...flat.subarray(i * size, (i + 1) * size)]);

/** Times a second of processor time: the best of some rounds, the one least disturbed by others on the machine. */
function rate(run: () => void, least = 50): number {
  let best = 0;
  for (let round = 0; round < ROUNDS; round++) best = Math.max(best, rateOnce(run, least));
  return best;
}

function rateOnce(run: () => void, least: number): number {
  const started = process.cpuUsage();
  for (let times = least; ; times += least) {
    for (let i = 0; i < least; i++) run();
    const { user, system } = process.cpuUsage(started);
    const ms = (user + system) / 1000;
    if (ms >= LEAST_MS) return (times * 1000) / ms;
  }
}
