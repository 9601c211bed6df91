import type { Span } from "@loomproof/netlist";
import { ALWAYS, type Circuit, type Drive, type Latch, type Load, type Logic } from "../circuit/circuit.ts";
import { opening, type Patch } from "../circuit/patch.ts";
import { type Network, networkOf } from "../solve/network.ts";
import { type OperatingPoint, operate } from "../solve/operate.ts";
import { gradeOf } from "./grade.ts";
import type { Seen } from "./look.ts";
import { logicIn, type Sight, type Variable, YES } from "./scope.ts";
import { END, type State } from "./state.ts";
import type { Under } from "./under.ts";

/** An operating point with what drives each latch: amps for armatures, volts for levels, 1 or 0 for logic. */
export interface Point {
  readonly closed: Uint8Array;
  readonly op: OperatingPoint;
  readonly drives: Float64Array;
}

/** What a latch does next at a point: stays, changes, or it depends on which end of its spread the specimen is at. */
export type Want = "stay" | "change" | { readonly change: number; readonly stay: number };

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
  return {
    circuit,
    patch,
    network,
    points: new Map(),
    trunks: new Map(),
    wants: new Map(),
    gatings: gatingsOf(circuit).flatMap(({ logic, elements }) => {
      const present = elements.every(isPresent) ? elements : elements.filter(isPresent);
      return present.length === 0 ? [] : [{ logic, elements: present }];
    }),
    always: Uint8Array.from(circuit.elements, (e, i) => (isPresent(i) && e.closed === ALWAYS ? 1 : 0)),
    latches: [...circuit.latches.keys()],
    absentKey: [...absent.keys()].filter((i) => !isPresent(i)).join(),
    view: undefined,
    solves: 0,
  };
}

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
  const op = operate(machine.network, closed);
  machine.solves++;
  const drives = Float64Array.from(machine.circuit.latches, (l) => driveOf(machine.circuit, l, closed, op, s));
  const point = { closed, op, drives };
  machine.points.set(s.pointKey, point);
  return point;
}

/** Thresholds are tested on values rounded to 1 µA and 1 µV, so that the last bits of a sum decide nothing. */
export const rounded = (x: number): number => Math.round(x * 1e6) / 1e6;

/** Drive of an armature by the amps in its windings. */
export function turned(drive: Extract<Drive, { kind: "amp-turns" }>, amps: readonly number[]): number {
  const sum = drive.windings.reduce((all, w, k) => all + w.turns * (amps[k] ?? 0), 0);
  return rounded(drive.sign === "both" ? sum : drive.sign === "positive" ? Math.max(0, sum) : Math.abs(sum));
}

function driveOf(circuit: Circuit, latch: Latch, closed: Uint8Array, op: OperatingPoint, s: State): number {
  const { drive } = latch;
  switch (drive.kind) {
    case "logic":
      return logicIs(drive.logic, s) ? 1 : 0;
    case "volts":
      return rounded(drive.sign * ((op.volts[drive.a] ?? 0) - (op.volts[drive.b] ?? 0)));
    case "amp-turns":
      return turned(
        drive,
        drive.windings.map((w) => op.amps[w.element] ?? 0),
      );
    case "loads":
      return drive.loads.some((l) => gradeOf(circuit, closed, op, s, circuit.loads[l] as Load) === "on") ? 1 : 0;
    default:
      return drive satisfies never;
  }
}

/** Latches that change from here, and the first whose change depends on the specimen. */
export interface Wants {
  readonly changing: readonly number[];
  readonly split: { readonly latch: number; readonly change: number; readonly stay: number } | undefined;
}

const NONE_FROZEN: ReadonlySet<number> = new Set();

/**
 * What the latches want in a state, remembered; those frozen are passed over. While something changes at once, nothing
 * else is asked: no time passes meanwhile, so nothing else can begin.
 */
export function wantsOf(machine: Machine, s: State, frozen: ReadonlySet<number> = NONE_FROZEN): Wants {
  const plain = frozen.size === 0;
  const known = plain ? machine.wants.get(s.key) : undefined;
  if (known !== undefined) return known;
  const { view } = machine;
  const wants = decided(machine, s, frozen, view?.under && below(view.under, s, frozen));
  // What a view that lacks something decides is worth nothing.
  if (plain && !(view !== undefined && view.missing.size > 0)) machine.wants.set(s.key, wants);
  return wants;
}

/** What the latches of the search below want, if it lacks nothing for that. */
const below = ({ machine, stateIn }: Under, s: State, frozen: ReadonlySet<number>): Wants | undefined =>
  byViewAlone(machine, () => wantsOf(machine, stateIn(s), frozen));

/** @param known what the latches of the search below want */
function decided(machine: Machine, s: State, frozen: ReadonlySet<number>, known: Wants | undefined): Wants {
  const { view, circuit } = machine;
  const instant = (i: number) => isInstant(circuit.latches[i] as Latch, s.latches[i] === 0, s);
  const wantOf = (atOnce: boolean) => (view === undefined ? wantsAt(machine, s) : view.wantsIn(machine, s, atOnce));
  const atOnce: number[] = [];
  const later: number[] = [];
  for (const i of known === undefined ? machine.latches : (view?.under as Under).others)
    if (!frozen.has(i)) (instant(i) ? atOnce : later).push(i);
  const first = known?.changing[0] ?? known?.split?.latch;
  const isAtOnce = first !== undefined && instant(first);
  let wants = together(isAtOnce ? known : undefined, wantsAmong(atOnce, wantOf(true)));
  if (wants.changing.length === 0 && wants.split === undefined) {
    wants = together(known, wantsAmong(later, wantOf(false)));
    view?.passed.push(s);
  }
  return wants;
}

/** In the order of the latches. */
function together(known: Wants | undefined, own: Wants): Wants {
  if (known === undefined) return own;
  const [x, y] = [known.split, own.split];
  return {
    changing: own.changing.length === 0 ? known.changing : [...known.changing, ...own.changing].sort((a, b) => a - b),
    split: x === undefined || (y !== undefined && y.latch < x.latch) ? y : x,
  };
}

function wantsAmong(latches: readonly number[], wantOf: (latch: number) => Want): Wants {
  const changing: number[] = [];
  let split: Wants["split"];
  for (const i of latches) {
    const want = wantOf(i);
    if (want === "change") changing.push(i);
    else if (want !== "stay") split ??= { latch: i, ...want };
  }
  return { changing, split };
}

const NO_TIME: Span = { least: 0, most: 0 };

/** How long a latch takes to go on or off; what is cut off goes at once. */
export const delayOf = (latch: Latch, on: boolean, s: State): Span =>
  !on && isCutOff(latch, s) ? NO_TIME : on ? latch.onTime : latch.offTime;

/** Whether it takes so long that the world may move meanwhile. */
export const isTimer = (latch: Latch, on: boolean, s: State): boolean =>
  !(!on && isCutOff(latch, s)) && (on ? latch.onTimer : latch.offTimer);

const isInstant = (latch: Latch, on: boolean, s: State): boolean =>
  !isTimer(latch, on, s) && delayOf(latch, on, s).most === 0;

/** What each latch wants at the operating point of a state. */
function wantsAt(machine: Machine, s: State): (index: number) => Want {
  const { drives } = pointOf(machine, s);
  return (index) => wantAt(machine.circuit.latches[index] as Latch, s, index, drives[index] ?? 0);
}

/** It goes off at once, whatever drives it: what it needs is off. */
export const isCutOff = (latch: Latch, s: State): boolean => latch.needs !== undefined && s.latches[latch.needs] === 0;

/** What latch `index` wants at this drive, given the ends already chosen in the state. */
export function wantAt(latch: Latch, s: State, index: number, drive: number): Want {
  const isOn = s.latches[index] === 1;
  if (isCutOff(latch, s)) return isOn ? "change" : "stay";
  if (latch.drive.kind === "logic" || latch.drive.kind === "loads") return (drive === 1) === isOn ? "stay" : "change";
  const end = s.ends[index] ?? 0;
  // Any one relay lets go below where it pulls in: one that pulls in at its least holds there, and one that lets go at
  // its most does not pull in there.
  if (isOn) {
    const most = end & END.onLeast ? Math.min(latch.off.most, latch.on.least) : latch.off.most;
    if (drive <= rounded(latch.off.least)) return "change";
    if (drive > rounded(most)) return "stay";
    if (end & END.offLeast) return "stay";
    return end & END.offMost ? "change" : splitOf(s, index);
  }
  const least = end & END.offMost ? Math.max(latch.on.least, latch.off.most) : latch.on.least;
  if (drive >= rounded(latch.on.most)) return "change";
  if (drive < rounded(least)) return "stay";
  if (end & END.onLeast) return "change";
  return end & END.onMost ? "stay" : splitOf(s, index);
}

/** Between the ends of its spread: the specimen decides. */
export const splitOf = (s: State, index: number): Want =>
  s.latches[index] === 1 ? { change: END.offMost, stay: END.offLeast } : { change: END.onLeast, stay: END.onMost };
