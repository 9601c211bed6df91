import { ALWAYS, type Circuit, type Drive, type Latch, type Load, type Logic } from "../circuit/circuit.ts";
import { opening, type Patch } from "../circuit/patch.ts";
import { type Network, networkOf } from "../solve/network.ts";
import { type OperatingPoint, operate } from "../solve/operate.ts";
import { gradeOf } from "./grade.ts";
import { bitsText } from "./key-text.ts";
import type { Seen } from "./look.ts";
import { logicIn, type Sight, type Variable, YES } from "./scope.ts";
import type { State } from "./state.ts";
import type { Under } from "./under.ts";
import type { Want } from "./want.ts";
import type { Wants } from "./wants.ts";

/** An operating point with what drives each latch: amps for armatures, volts for levels, 1 or 0 for logic. */
export interface Point {
  readonly closed: Uint8Array;
  readonly op: OperatingPoint;
  readonly drives: Float64Array;
}

/** Elements that the same logic closes. */
export interface Gating {
  readonly logic: Logic;
  readonly elements: readonly number[];
}

const gatings = new WeakMap<Circuit, readonly Gating[]>();

/** Each logic once: many contacts move together. */
function gatingsOf(circuit: Circuit): readonly Gating[] {
  let known = gatings.get(circuit);
  if (known === undefined) {
    const by = new Map<string, { readonly logic: Logic; readonly elements: number[] }>();
    circuit.elements.forEach(({ closed }, i) => {
      if (closed === ALWAYS) return;
      const key = JSON.stringify(closed);
      const same = by.get(key);
      if (same === undefined) by.set(key, { logic: closed, elements: [i] });
      else same.elements.push(i);
    });
    known = [...by.values()];
    gatings.set(circuit, known);
  }
  return known;
}

/** A circuit under one patch, with every operating point it has met. */
export interface Machine {
  readonly circuit: Circuit;
  readonly patch: Patch;
  readonly network: Network;
  readonly points: Map<string, Point>;
  /** What a view can tell of what conducts, by that. */
  readonly trunks: Map<string, Seen>;
  /** What each latch wants, by state. */
  readonly wants: Map<string, Wants>;
  /** What moves elements, and a pattern of those that always conduct. */
  readonly gatings: readonly Gating[];
  readonly always: Uint8Array;
  /** Latches that it moves: all, or those of its view. */
  readonly latches: readonly number[];
  /** Names the elements that the patch leaves out. */
  readonly absentKey: string;
  /** Set when only part of the loom moves; see `scope.ts`. */
  readonly view: View | undefined;
  /** Solves so far: the only measure of effort, so that the same file gives the same answer on any machine. */
  solves: number;
}

export function machineOf(circuit: Circuit, patch: Patch): Machine {
  const network = networkOf(circuit, patch);
  const { absent } = network;
  const isPresent = (i: number) => absent[i] === 0;
  return assembled({
    circuit,
    patch,
    network,
    points: new Map(),
    trunks: new Map(),
    gatings: gatingsOf(circuit).flatMap(({ logic, elements }) => {
      const present = elements.every(isPresent) ? elements : elements.filter(isPresent);
      return present.length === 0 ? [] : [{ logic, elements: present }];
    }),
    always: Uint8Array.from(circuit.elements, (e, i) => (isPresent(i) && e.closed === ALWAYS ? 1 : 0)),
    latches: [...circuit.latches.keys()],
    absentKey: [...absent.keys()].filter((i) => !isPresent(i)).join(),
    view: undefined,
    solves: 0,
  });
}

/** The same machine, of which a view moves some latches. It shares what was solved. */
export const viewedAs = (machine: Machine, latches: readonly number[], view: View): Machine =>
  assembled({ ...machine, latches, view });

/** Spelt out in one place: everything asks machines, and the engine is to see one shape of them. */
const assembled = (of: Omit<Machine, "wants">): Machine => ({
  circuit: of.circuit,
  patch: of.patch,
  network: of.network,
  points: of.points,
  trunks: of.trunks,
  wants: new Map(),
  gatings: of.gatings,
  always: of.always,
  latches: of.latches,
  absentKey: of.absentKey,
  view: of.view,
  solves: of.solves,
});

/** Only part of the loom moves: how that part is decided, and what it turned out to miss. */
export interface View extends Sight {
  readonly missing: Set<Variable>;
  readonly under: Under | undefined;
  /** States between changes that take no time, as they were passed through. */
  readonly passed: State[];
  /** What each latch wants in a state; of those that change at once, or of the others. */
  readonly wantsIn: (machine: Machine, s: State, atOnce: boolean) => (latch: number) => Want;
  /** Of what is missing, what only moves the trunk. */
  readonly bySag: Set<Variable>;
  /** Whether such is taken as usual instead of being named, and the latches that it was for. */
  readonly sagAsUsual: boolean;
  readonly asUsual: Set<number>;
  /** The machine that moves the whole loom, and the same decided island by island. */
  readonly base: Machine;
  readonly whole: () => Machine;
  /** The same view of the base with some elements open. What it lacks is counted as lacking here. */
  readonly of: (base: Machine) => Machine;
}

/**
 * Decides by what a view moves; if that turns out to hang on anything outside, by the whole loom, with all else as it
 * stands in the states asked about.
 */
export function within<T>(machine: Machine, decide: (machine: Machine) => T): T {
  const { view } = machine;
  const result = decide(machine);
  if (view === undefined || view.missing.size === 0) return result;
  view.missing.clear();
  return decide(view.whole());
}

/** What a view decides by what it moves alone; undefined if that hangs on anything outside. */
export function byViewAlone<T>(machine: Machine, decide: () => T): T | undefined {
  const { view } = machine;
  const result = decide();
  if (view === undefined || view.missing.size === 0) return result;
  view.missing.clear();
  return undefined;
}

const openedOf = new WeakMap<Machine, Map<string, Machine>>();

/** The same machine with some elements open, remembered with its operating points. */
export function opened(machine: Machine, elements: readonly number[]): Machine {
  if (elements.length === 0) return machine;
  let known = openedOf.get(machine);
  if (known === undefined) {
    known = new Map();
    openedOf.set(machine, known);
  }
  const key = elements.join();
  let same = known.get(key);
  if (same === undefined) {
    same =
      machine.view === undefined
        ? machineOf(machine.circuit, opening(machine.patch, elements))
        : machine.view.of(opened(machine.view.base, elements));
    known.set(key, same);
  }
  return same;
}

const logicIs = (logic: Logic, s: State): boolean => logicIn(logic, s) === YES;

/** Which elements conduct in this state, for all that a view can see. */
export const closedIn = (machine: Machine, s: State): Uint8Array => closedBy(machine, s, machine.view);

/** Which elements conduct in this state, everything outside a view as the state has it. */
export const allClosedIn = (machine: Machine, s: State): Uint8Array => closedBy(machine, s, undefined);

function closedBy({ always, gatings }: Machine, s: State, sight: Sight | undefined): Uint8Array {
  const closed = always.slice();
  for (const { logic, elements } of gatings)
    if (logicIn(logic, s, sight) === YES) for (const i of elements) closed[i] = 1;
  return closed;
}

/** The operating point of a state, remembered. */
export function pointOf(machine: Machine, s: State): Point {
  const known = machine.points.get(s.pointKey);
  if (known !== undefined) return known;
  const closed = closedBy(machine, s, undefined);
  const op = operatedIn(machine, closed);
  const { circuit } = machine;
  const drives = new Float64Array(circuit.latches.length);
  for (let i = 0; i < drives.length; i++) drives[i] = driveOf(circuit, circuit.latches[i] as Latch, closed, op, s);
  const point = { closed, op, drives };
  machine.points.set(s.pointKey, point);
  return point;
}

const solved = new WeakMap<Network["values"], Map<string, OperatingPoint>>();

/**
 * The operating point of all states, of the loom as it is or with wires open, in which the same conducts. There are
 * several times as many states as that.
 *
 * @param closed one byte an element: 1 conducts
 */
export function operatedIn(machine: Machine, closed: Uint8Array): OperatingPoint {
  const { network } = machine;
  let known = solved.get(network.values);
  if (known === undefined) {
    known = new Map();
    solved.set(network.values, known);
  }
  const key = bitsText(closed, 1);
  let op = known.get(key);
  if (op === undefined) {
    op = operate(network.solvable, closed);
    machine.solves++;
    known.set(key, op);
  }
  return op;
}

/** Thresholds are tested on values rounded to 1 µA and 1 µV, so that the last bits of a sum decide nothing. */
export const rounded = (x: number): number => Math.round(x * 1e6) / 1e6;

/** Drive of an armature by the amps in its windings: of an element, the `k`-th of them. */
export function turned(
  { windings, sign }: Extract<Drive, { kind: "amp-turns" }>,
  ampsIn: (element: number, k: number) => number,
): number {
  const sum = windings.reduce((all, { element, turns }, k) => all + turns * ampsIn(element, k), 0);
  return rounded(sign === "both" ? sum : sign === "positive" ? Math.max(0, sum) : Math.abs(sum));
}

function driveOf(circuit: Circuit, latch: Latch, closed: Uint8Array, op: OperatingPoint, s: State): number {
  const { drive } = latch;
  switch (drive.kind) {
    case "logic":
      return logicIs(drive.logic, s) ? 1 : 0;
    case "volts":
      return rounded(drive.sign * ((op.volts[drive.a] ?? 0) - (op.volts[drive.b] ?? 0)));
    case "amp-turns":
      return turned(drive, (element) => op.amps[element] ?? 0);
    case "loads":
      return drive.loads.some((l) => gradeOf(circuit, closed, op, s, circuit.loads[l] as Load) === "on") ? 1 : 0;
    default:
      return drive satisfies never;
  }
}
