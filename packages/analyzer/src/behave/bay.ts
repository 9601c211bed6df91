import type { Circuit, Element } from "../circuit/circuit.ts";
import { type PartShape, partShape } from "../solve/part.ts";
import { elementsAt } from "./feed.ts";
import { elementsOf, rimOf, sumOf } from "./hanging.ts";
import { numbersText } from "./key-text.ts";
import { scattered } from "./scatter.ts";
import { MAYBE } from "./scope.ts";
import type { Topology } from "./topology.ts";

/** What is asked of islands: amps through elements, volts over them or of nodes. */
export interface Probe {
  /** Its number among the probes of the circuit. */
  readonly id: number;
  readonly elements: readonly number[];
  readonly nodes: readonly number[];
}

/** The islands that a probe touches, taken as one, and the trunk nodes around them. Every run shares it. */
export interface Bay {
  /** The same in all topologies in which it is made of the same, hangs on the same and leaves the same open. */
  readonly id: number;
  readonly shape: PartShape;
  /** Trunk nodes; the place of each in the shape, or -1 if only the probe asks for it. */
  readonly rim: readonly number[];
  readonly rimPlaces: readonly number[];
  /** Elements that may or may not conduct, and the place of each in the shape. */
  readonly undecided: readonly number[];
  readonly undecidedPlaces: readonly number[];
}

interface Bays {
  readonly probes: readonly Probe[];
  /** By the sum of what was found at a probe; and by what that comes to. */
  readonly found: Map<number, Found[]>;
  readonly bays: Map<string, Bay>;
  readonly shapes: Map<string, PartShape>;
}

/** What was found at a probe: islands of a topology, and trunk nodes. */
interface Found {
  readonly topology: Topology;
  readonly numbers: readonly number[];
  readonly fixed: readonly number[];
  readonly bay: Bay;
}

const cache = new WeakMap<Circuit, Bays>();

function baysIn(circuit: Circuit): Bays {
  let bays = cache.get(circuit);
  if (bays === undefined) {
    bays = { probes: probesOf(circuit), found: new Map(), bays: new Map(), shapes: new Map() };
    cache.set(circuit, bays);
  }
  return bays;
}

/** One for each latch, then one for each load. */
function probesOf({ latches, loads }: Circuit): readonly Probe[] {
  const asked = [
    ...latches.map(({ drive }) =>
      drive.kind === "amp-turns"
        ? { elements: drive.windings.map((w) => w.element), nodes: [] }
        : { elements: [], nodes: drive.kind === "volts" ? [drive.a, drive.b] : [] },
    ),
    ...loads.map((l) => ({ elements: [l.element], nodes: [] })),
  ];
  return asked.map((probe, id) => ({ ...probe, id }));
}

export const latchProbe = (circuit: Circuit, latch: number): Probe => baysIn(circuit).probes[latch] as Probe;
export const loadProbe = (circuit: Circuit, load: number): Probe =>
  baysIn(circuit).probes[circuit.latches.length + load] as Probe;

/** What a probe touches. */
export function bayOf(circuit: Circuit, topology: Topology, probe: Probe): Bay {
  let bay = topology.bays.get(probe.id);
  if (bay === undefined) {
    bay = findBay(circuit, topology, probe);
    topology.bays.set(probe.id, bay);
  }
  return bay;
}

function findBay(circuit: Circuit, topology: Topology, probe: Probe): Bay {
  const { found } = baysIn(circuit);
  const numbers = islandsAt(circuit, topology, probe);
  const fixed = fixedBy(circuit, topology, probe);
  const sum = sumOfAll(topology, numbers, fixed);
  const alike = found.get(sum) ?? [];
  if (alike.length === 0) found.set(sum, alike);
  let same = alike.find((f) => isSame(f, topology, numbers, fixed));
  if (same === undefined) {
    same = { topology, numbers, fixed, bay: makeBay(circuit, topology, numbers, fixed) };
    alike.push(same);
  }
  return same.bay;
}

function sumOfAll({ hanging }: Topology, numbers: readonly number[], fixed: readonly number[]): number {
  let sum = scattered(fixed.length);
  for (const k of numbers) sum += sumOf(hanging, k);
  // A node counts by its place: of two nodes asked about the first is another than the second.
  for (const [at, n] of fixed.entries()) sum += scattered((n << 3) | (at + 1));
  return sum | 0;
}

/** The same nodes, and islands of the same elements, each conducting as surely, on the same rim. */
function isSame(f: Found, topology: Topology, numbers: readonly number[], fixed: readonly number[]): boolean {
  if (!isAlike(f.fixed, fixed) || f.numbers.length !== numbers.length) return false;
  return numbers.every((k, at) => {
    const other = f.numbers[at] as number;
    const elements = elementsOf(topology.hanging, k);
    return (
      isAlike(elementsOf(f.topology.hanging, other), elements) &&
      isAlike(rimOf(f.topology.hanging, other), rimOf(topology.hanging, k)) &&
      elements.every((i) => f.topology.closed[i] === topology.closed[i])
    );
  });
}

function isAlike(one: ArrayLike<number>, other: ArrayLike<number>): boolean {
  if (one.length !== other.length) return false;
  for (let k = 0; k < one.length; k++) if (one[k] !== other[k]) return false;
  return true;
}

function makeBay(circuit: Circuit, topology: Topology, numbers: readonly number[], fixed: readonly number[]): Bay {
  const { bays, shapes } = baysIn(circuit);
  const elements = numbers.flatMap((k) => [...elementsOf(topology.hanging, k)]);
  const undecided = elements.filter((i) => topology.closed[i] === MAYBE);
  const rim = [...new Set([...fixed, ...numbers.flatMap((k) => [...rimOf(topology.hanging, k)])])];
  const made = `${numbersText(elements)}|${numbersText(rim)}`;
  const key = `${made}|${numbersText(undecided)}`;
  const same = bays.get(key);
  if (same !== undefined) return same;
  let shape = shapes.get(made);
  if (shape === undefined) {
    shape = partShape(circuit, elements, topology.isTrunk);
    shapes.set(made, shape);
  }
  const { nodeAt, elementAt } = shape;
  const bay: Bay = {
    id: bays.size,
    shape,
    rim,
    rimPlaces: rim.map((n) => nodeAt.get(n) ?? -1),
    undecided,
    undecidedPlaces: undecided.map((i) => elementAt.get(i) as number),
  };
  bays.set(key, bay);
  return bay;
}

/** Nodes of the trunk that a probe asks for itself: their volts count, so they make the bay another one. */
function fixedBy({ elements }: Circuit, { isTrunk, hanging }: Topology, probe: Probe): readonly number[] {
  const open = probe.elements.filter((i) => hanging.islandOf[i] === -1).map((i) => elements[i] as Element);
  return [...probe.nodes, ...open.flatMap((e) => [e.a, e.b])].filter((n) => isTrunk[n] === 1);
}

/** Numbers of the islands that a probe touches, ascending. */
function islandsAt(circuit: Circuit, { isTrunk, hanging }: Topology, { elements, nodes }: Probe): readonly number[] {
  const at = elementsAt(circuit);
  const numbers: number[] = [];
  const meet = (i: number): boolean => {
    const k = hanging.islandOf[i] as number;
    if (k >= 0 && !numbers.includes(k)) numbers.push(k);
    return k >= 0;
  };
  // All that conducts at a node off the trunk is one island.
  const meetNode = (n: number) => isTrunk[n] === 1 || at[n]?.some(meet);
  for (const n of nodes) meetNode(n);
  for (const i of elements) {
    const e = circuit.elements[i] as Element;
    if (!meet(i)) for (const n of [e.a, e.b]) meetNode(n);
  }
  return numbers.sort((x, y) => x - y);
}
