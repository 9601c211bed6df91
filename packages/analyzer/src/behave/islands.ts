import type { Element } from "../circuit/circuit.ts";
import { ampsAt, type Network, type Values } from "../solve/network.ts";
import { gatesTowards } from "./asked.ts";
import type { Probe } from "./bay.ts";
import { pointAt, probed, type Reading, type SolvedIsland } from "./island.ts";
import type { Machine } from "./machine.ts";
import { ALL_OPEN, allClosed, everyWay, flipped, flipping } from "./mixture.ts";
import { MAYBE, NO, YES } from "./scope.ts";

// What hangs on the trunk, solved island by island: with the trunk's volts anywhere between their corners, and with what
// may or may not conduct both ways.

/** Volts and amps asked of an island, in one way that it may be. */
export interface Flow extends Reading {
  /** Which of the undecided conduct; see `mixture.ts`. */
  readonly way: number;
  /** Which end of what the trunk leaves open; 0 is the trunk light. */
  readonly corner: number;
}

/**
 * `unfed`: nothing, and all that the rim could drive through it, where that is next to nothing; unsolved. `ends`: all
 * undecided open, and all closed. `near`: of many, each alone by which feed or return comes to the probe the
 * other way as well. `flips`: each alone. `bounded`: every mixture, and around each what the trunk's corners can move at
 * most. `corners`: every mixture, solved at every corner.
 */
export type Stage = "unfed" | "ends" | "near" | "flips" | "bounded" | "corners";

/** Every way that an island may be, as far as it is asked for. */
export interface Flows {
  /** Elements of the island that may or may not conduct. */
  readonly undecided: readonly number[];
  /** So small that its corners cost less than to draw those of the trunk together. */
  readonly isSmall: boolean;
  /** None if there are too many ways to try. */
  readonly of: (stage: Stage) => readonly Flow[];
}

/** Past this many undecided elements each is not tried: all are needed as they are. */
const MOST_UNDECIDED = 250;
/** Up to this many, each is tried without looking for what is near. */
const FEW = 8;
/** Volts between the ends of a rim past which something may well be fed. */
const MOST_UNFED_VOLTS = 2;
/** Elements up to which an island is small. */
const SMALL = 24;
/** Past this many solves the corners of an island are not tried: what moves the trunk is looked at instead. */
const MOST_CORNERS = 32;

/** Nothing of it is solved: too much is undecided. */
const unsolved = (undecided: readonly number[]): Flows => ({ undecided, isSmall: false, of: () => [] });

/** What all ways agree on, or the elements that turn it: none if only the trunk does. */
export type Agreed<T> = { readonly is: T } | { readonly turned: readonly number[] };

/**
 * @param decisions one for each flow of a stage
 * @param isLast look at the corners themselves, if their bounds do not decide
 */
export function agreedOn<T>(flows: Flows, decisions: (stage: Stage) => readonly T[], isLast: boolean): Agreed<T> {
  const unfed = decisions("unfed");
  if (unfed[0] !== undefined && unfed.every((x) => x === unfed[0])) return { is: unfed[0] };
  const ends = decisions("ends");
  const [first] = ends;
  if (first === undefined) return { turned: flows.undecided };
  const isFirst = (x: T) => x === first;
  if (!ends.every(isFirst)) {
    // A bus with forty consumers: what feeds it turns them all, so that is tried before each of the others.
    const near = alone(flows, "near", decisions("near"));
    return { turned: near.length > 0 ? near : turning(flows, "flips", decisions("flips")) };
  }
  const bounded = decisions("bounded");
  if (bounded.every(isFirst)) return { is: first };
  const turned = turning(flows, "bounded", bounded);
  if (turned.length > 0 || !(isLast || flows.isSmall)) return { turned };
  const corners = decisions("corners");
  if (corners.length === 0) return { turned };
  return corners.every(isFirst) ? { is: first } : { turned: turning(flows, "corners", corners) };
}

/** Undecided elements that alone turn a decision: two ways differ in nothing else, and the decision differs. */
function alone<T>(flows: Flows, stage: Stage, decisions: readonly T[]): readonly number[] {
  const light = lightOf(flows, stage, decisions);
  const by = new Map(light.map((f) => [f.way, f.is]));
  const { undecided } = flows;
  const differs = (f: { readonly way: number; readonly is: T }, one: number) => {
    const other = by.get(flipped(undecided.length, f.way, one));
    return other !== undefined && other !== f.is;
  };
  return undecided.filter((_, one) => light.some((f) => differs(f, one)));
}

/** Those that turn it alone; all if none does so alone but the ways differ; none if only the trunk's corners do. */
function turning<T>(flows: Flows, stage: Stage, decisions: readonly T[]): readonly number[] {
  const turned = alone(flows, stage, decisions);
  if (turned.length > 0) return turned;
  const light = lightOf(flows, stage, decisions);
  return light.some((f) => f.is !== light[0]?.is) ? flows.undecided : [];
}

const lightOf = <T>(flows: Flows, stage: Stage, decisions: readonly T[]) =>
  flows.of(stage).flatMap((f, k) => (f.corner === 0 ? [{ way: f.way, is: decisions[k] as T }] : []));

export function flowsOf(machine: Machine, island: SolvedIsland, probe: Probe): Flows {
  const { corners, spread } = island;
  const { undecided, shape } = island.bay;
  if (undecided.length > MOST_UNDECIDED) return unsolved(undecided);
  const at = (way: number, corner: number): Flow => {
    const { volts, amps } = probed(machine, island, pointAt(machine, island, way, corner), corner, probe);
    return { way, corner, volts, amps };
  };
  const solved = (stage: Exclude<Stage, "unfed">): readonly Flow[] => {
    const ways = stage === "near" ? nearWays(machine, island, probe) : waysOf(undecided.length, stage);
    if (stage === "corners")
      return ways.length * corners.count > MOST_CORNERS
        ? []
        : ways.flatMap((way) => Array.from({ length: corners.count }, (_, corner) => at(way, corner)));
    const light = ways.map((way) => at(way, 0));
    return stage === "bounded" && spread > 0
      ? light.flatMap((f) => [f, ...around(machine.network, probe, f, spread)])
      : light;
  };
  const stages = new Map<Stage, readonly Flow[]>();
  return {
    undecided,
    isSmall: shape.elements.length <= SMALL,
    of: (stage) => {
      let flows = stages.get(stage);
      if (flows === undefined) {
        flows = stage === "unfed" ? unfedFlows(machine.network, island, probe) : solved(stage);
        stages.set(stage, flows);
      }
      return flows;
    },
  };
}

function waysOf(count: number, stage: Exclude<Stage, "unfed" | "near">): readonly number[] {
  if (stage === "ends") return count === 0 ? [ALL_OPEN] : [ALL_OPEN, allClosed(count)];
  return stage === "flips" ? flipping(count, [...Array(count).keys()]) : everyWay(count);
}

/** None where all are few, or all are near. */
function nearWays({ circuit }: Machine, { bay }: SolvedIsland, { elements, nodes }: Probe): readonly number[] {
  const { undecided, shape, rim } = bay;
  if (undecided.length <= FEW) return [];
  const open = new Set(undecided);
  const ends = elements.map((i) => circuit.elements[i] as Element).flatMap((e) => [e.a, e.b]);
  const near = gatesTowards(
    circuit,
    [...nodes, ...ends],
    (i) => (open.has(i) ? MAYBE : shape.elementAt.has(i) ? YES : NO),
    (n) => rim.includes(n),
  );
  const ones = [...undecided.keys()].filter((one) => near.has(undecided[one] as number));
  return ones.length === undecided.length ? [] : flipping(undecided.length, ones);
}

/**
 * Without a source of its own no part of an island is at more volts than the most at its rim, and none at less than the
 * least (the maximum principle of resistive networks; from memory). So what lies between two grounds is not solved.
 */
function unfedFlows(network: Network, { drop, bay }: SolvedIsland, probe: Probe): readonly Flow[] {
  const isInside = probe.nodes.length === 0 && probe.elements.every((i) => bay.shape.elementAt.has(i));
  if (drop > MOST_UNFED_VOLTS || !isInside) return [];
  const zeros = new Float64Array(probe.elements.length);
  return [{ way: 0, corner: 0, volts: zeros, amps: zeros }, ...between(network.values, probe, zeros, drop, 0)];
}

/** The same flow with each value as far down and as far up as the trunk can move it. */
function around({ values }: Network, probe: Probe, { way, volts, amps }: Flow, spread: number): readonly Flow[] {
  const moved = between(values, probe, volts, spread, way);
  // Through what nothing flows and nothing stands over, nothing flows.
  for (const f of moved)
    for (let k = 0; k < amps.length; k++) if (amps[k] === 0 && volts[probe.nodes.length + k] === 0) f.amps[k] = 0;
  return moved;
}

/** Each value as far down and as far up as this, in every mixture of the elements. */
function between(
  values: Values,
  { elements, nodes }: Probe,
  around: Float64Array,
  spread: number,
  way: number,
): readonly Flow[] {
  const flows: Flow[] = [];
  for (let m = 0; m < 1 << Math.max(1, elements.length); m++) {
    const by = (k: number) => ((m >> k) & 1 ? spread : -spread);
    const volts = around.slice();
    const amps = new Float64Array(elements.length);
    // Of two nodes the first is moved against the other.
    if (nodes.length > 0) (volts[0] as number) += by(0);
    for (let k = 0; k < elements.length; k++) {
      const at = nodes.length + k;
      amps[k] = ampsAt(values, elements[k] as number, (around[at] as number) + by(k));
      (volts[at] as number) += by(k);
    }
    flows.push({ way, corner: m + 1, volts, amps });
  }
  return flows;
}
