import { ampsAt, type Network } from "../solve/network.ts";
import type { Probe } from "./bay.ts";
import { bitOf, flipped, pointAt, probed, type Reading, type SolvedIsland } from "./island.ts";
import type { Machine } from "./machine.ts";

// What hangs on the trunk, solved island by island: with the trunk's volts anywhere between their corners, and with what
// may or may not conduct both ways.

/** Volts and amps asked of an island, in one way that it may be. */
export interface Flow extends Reading {
  /** Which of the undecided conduct, one bit each. */
  readonly way: number;
  /** Which end of what the trunk leaves open; 0 is the trunk light. */
  readonly corner: number;
}

/**
 * `ends`: all undecided open, and all closed. `flips`: each alone the other way as well. `bounded`: every mixture, and
 * around each what the trunk's corners can move at most. `corners`: every mixture, solved at every corner.
 */
export type Stage = "ends" | "flips" | "bounded" | "corners";

/** Every way that an island may be, as far as it is asked for. */
export interface Flows {
  /** Elements of the island that may or may not conduct. */
  readonly undecided: readonly number[];
  /** So small that its corners cost less than to draw those of the trunk together. */
  readonly isSmall: boolean;
  /** None if there are too many ways to try. */
  readonly of: (stage: Stage) => readonly Flow[];
}

/** Up to this many undecided elements are tried in every mixture. */
const MOST_MIXED_WAYS = 4;
/** Beyond, each alone against all others open and all others closed; past this many they are needed as they are. */
const MOST_UNDECIDED = 45;
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
  const ends = decisions("ends");
  const [first] = ends;
  if (first === undefined) return { turned: flows.undecided };
  const isFirst = (x: T) => x === first;
  if (!ends.every(isFirst)) return { turned: turning(flows, "flips", decisions("flips")) };
  const bounded = decisions("bounded");
  if (bounded.every(isFirst)) return { is: first };
  const turned = turning(flows, "bounded", bounded);
  if (turned.length > 0 || !(isLast || flows.isSmall)) return { turned };
  const corners = decisions("corners");
  if (corners.length === 0) return { turned };
  return corners.every(isFirst) ? { is: first } : { turned: turning(flows, "corners", corners) };
}

/**
 * Undecided elements that alone turn a decision: two ways differ in nothing else, and the decision differs. All of them
 * if none does so alone but the ways differ; none if only the trunk's corners do.
 */
function turning<T>({ of, undecided }: Flows, stage: Stage, decisions: readonly T[]): readonly number[] {
  const flows = of(stage);
  const light = flows.flatMap((f, k) => (f.corner === 0 ? [{ way: f.way, is: decisions[k] as T }] : []));
  const by = new Map(light.map((f) => [f.way, f.is]));
  const differs = (f: { readonly way: number; readonly is: T }, bit: number) => {
    const other = by.get(flipped(f.way, bit));
    return other !== undefined && other !== f.is;
  };
  const alone = undecided.filter((_, bit) => light.some((f) => differs(f, bit)));
  if (alone.length > 0) return alone;
  return light.some((f) => f.is !== light[0]?.is) ? undecided : [];
}

export function flowsOf(machine: Machine, island: SolvedIsland, probe: Probe): Flows {
  const { corners, spread } = island;
  const { undecided, shape } = island.bay;
  if (undecided.length > MOST_UNDECIDED) return unsolved(undecided);
  const at = (way: number, corner: number): Flow => ({
    way,
    corner,
    ...probed(machine, island, pointAt(machine, island, way, corner), corner, probe),
  });
  const stages = new Map<Stage, readonly Flow[]>();
  return {
    undecided,
    isSmall: shape.elements.length <= SMALL,
    of: (stage) => {
      let flows = stages.get(stage);
      if (flows === undefined) {
        const ways = waysOf(undecided.length, stage);
        if (stage === "corners" && ways.length * corners.count > MOST_CORNERS) flows = [];
        else if (stage === "corners")
          flows = ways.flatMap((way) => Array.from({ length: corners.count }, (_, corner) => at(way, corner)));
        else {
          flows = ways.map((way) => at(way, 0));
          if (stage === "bounded" && spread > 0)
            flows = flows.flatMap((f) => [f, ...around(machine.network, probe, f, spread)]);
        }
        stages.set(stage, flows);
      }
      return flows;
    },
  };
}

function waysOf(count: number, stage: Stage): readonly number[] {
  const all = bitOf(count) - 1;
  if (stage === "ends") return count === 0 ? [0] : [0, all];
  if (stage !== "flips" && count <= MOST_MIXED_WAYS) return Array.from({ length: 1 << count }, (_, way) => way);
  const flips = Array.from({ length: count }, (_, bit) => [bitOf(bit), flipped(all, bit)]).flat();
  return [...new Set([0, all, ...flips])];
}

/** The same flow with each value as far down and as far up as the trunk can move it. */
function around(network: Network, probe: Probe, flow: Flow, spread: number): readonly Flow[] {
  const { elements, nodes } = probe;
  const ends = 1 << Math.max(1, elements.length);
  return Array.from({ length: ends }, (_, m): Flow => {
    const by = (k: number) => ((m >> k) & 1 ? spread : -spread);
    return {
      way: flow.way,
      corner: m + 1,
      // Of two nodes the first is moved against the other.
      volts: flow.volts.map((v, k) => (k === 0 ? v + by(0) : k < nodes.length ? v : v + by(k - nodes.length))),
      amps: elements.map((i, k) =>
        flow.amps[k] === 0 && flow.volts[nodes.length + k] === 0
          ? 0
          : ampsAt(network, i, (flow.volts[nodes.length + k] as number) + by(k)),
      ),
    };
  });
}
