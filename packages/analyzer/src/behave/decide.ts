import type { Element, Latch, Load } from "../circuit/circuit.ts";
import type { Network } from "../solve/network.ts";
import { operatePart, partOf } from "../solve/part.ts";
import { elementsAt } from "./feed.ts";
import { gradeBy, type On } from "./grade.ts";
import { type Asked, askedIn, askedWith, isAskedFor, onState } from "./loads.ts";
import { isCutOff, type Machine, pointOf, rounded, turned, type View, type Want, wantAt } from "./machine.ts";
import { latchVariable, logicIn, MAYBE, missingIn, NO, type Scope, type Variable, YES } from "./scope.ts";
import type { State } from "./state.ts";
import { type Trunk, trunkOf } from "./trunk.ts";

/** Trunks and islands solved so far in one run, for every scope. */
export interface Shared {
  readonly trunks: Map<string, Seen>;
  readonly islands: Map<string, readonly Flow[]>;
}

export const emptyShared = (): Shared => ({ trunks: new Map(), islands: new Map() });

/** The same machine moving only what is in a scope, decided island by island. */
export function viewed(
  machine: Machine,
  scope: Scope,
  shared: Shared,
  missing: Set<Variable> = new Set<Variable>(),
): Machine {
  const latches = machine.circuit.latches.flatMap((_, i) => (scope.latches[i] === 1 ? [i] : []));
  const view: IslandView = {
    scope,
    missing,
    latches,
    shared,
    wantsIn: (m, s) => wantsIn(m, view, s),
    base: machine,
    of: (other) => viewed(other, scope, emptyShared(), missing),
  };
  return { ...machine, wants: new Map(), view };
}

interface IslandView extends View {
  readonly shared: Shared;
}

/** A trunk with the ranges of what was asked of it. */
interface Seen {
  readonly trunk: Trunk;
  readonly drives: Map<number, Range>;
  /** Designed feed and return with what is undecided open, and closed. */
  reached: readonly [Asked, Asked] | undefined;
}

/** Volts over, and amps through, some elements in one way the island may be. */
interface Flow {
  readonly volts: readonly number[];
  readonly amps: readonly number[];
}

/** Least and most that a value is, over all that the scope does not know; the elements that leave it open. */
interface Range {
  readonly least: number;
  readonly most: number;
  readonly undecided: readonly number[];
}

/** Elements that may or may not conduct are tried both ways up to this many; past it their variables are needed. */
const MOST_UNDECIDED = 4;

/** Three-valued: which elements conduct, as far as the scope can tell. */
function seenIn(machine: Machine, view: IslandView, s: State): Seen {
  const { circuit } = machine;
  const closed = machine.always.slice();
  let key = "";
  let word = 0;
  let room = 7;
  for (const i of machine.switched) {
    const is = logicIn((circuit.elements[i] as Element).closed, s, view.scope);
    closed[i] = is;
    word = word * 3 + is;
    if (--room === 0) {
      key += String.fromCharCode(word);
      word = 0;
      room = 7;
    }
  }
  key += String.fromCharCode(word);
  let seen = view.shared.trunks.get(key);
  if (seen === undefined) {
    seen = { trunk: trunkOf(machine.network, closed), drives: new Map(), reached: undefined };
    view.shared.trunks.set(key, seen);
  }
  return seen;
}

/** What the latches of a scope want, decided island by island. Names what it would have to know besides. */
function wantsIn(machine: Machine, view: IslandView, s: State): (index: number) => Want {
  const seen = seenIn(machine, view, s);
  return (index) => {
    const latch = machine.circuit.latches[index] as Latch;
    const { drive } = latch;
    // What is cut off asks for no drive, and so for nothing outside.
    if (isCutOff(latch, s)) return wantAt(latch, s, index, 0);
    if (drive.kind === "logic") {
      const is = logicIn(drive.logic, s, view.scope);
      if (is === MAYBE) need(view, missingIn(machine.circuit, drive.logic, s, view.scope));
      return wantAt(latch, s, index, is === YES ? 1 : 0);
    }
    const range =
      drive.kind === "loads" ? partRange(machine, view, s, seen, drive.loads) : driveRange(machine, view, seen, index);
    const low = wantAt(latch, s, index, range.least);
    const high = wantAt(latch, s, index, range.most);
    if (same(low, high)) return low;
    // It hangs on something outside: name it; if there is nothing left to name, the whole loom decides.
    if (needFor(machine, view, s, seen, range.undecided)) return "stay";
    return wantAt(latch, s, index, pointOf(machine, s).drives[index] ?? 0);
  };
}

const same = (x: Want, y: Want): boolean => x === y || (typeof x === "object" && typeof y === "object");

function need(view: IslandView, variables: readonly Variable[]): void {
  for (const v of variables) view.missing.add(v);
}

/** Names the variables that leave `undecided` open, or those that move the trunk most. False if there are none. */
function needFor(machine: Machine, view: IslandView, s: State, seen: Seen, undecided: readonly number[]): boolean {
  const { circuit } = machine;
  const of = (elements: readonly number[]) =>
    elements.flatMap((i) => missingIn(circuit, (circuit.elements[i] as Element).closed, s, view.scope));
  const own = of(undecided);
  const variables = own.length > 0 ? own : of(seen.trunk.undecided[0]?.elements ?? []);
  need(view, variables);
  return variables.length > 0;
}

function driveRange(machine: Machine, view: IslandView, seen: Seen, index: number): Range {
  const known = seen.drives.get(index);
  if (known !== undefined) return known;
  const { circuit } = machine;
  const { drive } = circuit.latches[index] as Latch;
  let range: Range;
  if (drive.kind === "amp-turns") {
    const elements = drive.windings.map((w) => w.element);
    const { flows, undecided } = flowsOf(machine, view, seen.trunk, elements, []);
    range = rangeOf(
      flows.map((f) => turned(drive, f.amps)),
      undecided,
    );
  } else if (drive.kind === "volts") {
    const { flows, undecided } = flowsOf(machine, view, seen.trunk, [], [drive.a, drive.b]);
    range = rangeOf(
      flows.map((f) => rounded(drive.sign * ((f.volts[0] ?? 0) - (f.volts[1] ?? 0)))),
      undecided,
    );
  } else throw new Error("a drive of logic has no range");
  seen.drives.set(index, range);
  return range;
}

const rangeOf = (values: readonly number[], undecided: readonly number[]): Range =>
  values.length === 0
    ? { least: Number.NEGATIVE_INFINITY, most: Number.POSITIVE_INFINITY, undecided }
    : { least: Math.min(...values), most: Math.max(...values), undecided };

interface Flows {
  /** Every way it may be; none if there are too many to try. */
  readonly flows: readonly Flow[];
  readonly undecided: readonly number[];
}

/** Amps through elements and volts of nodes, in both corners of the trunk and each way the undecided may be. */
function flowsOf(
  machine: Machine,
  view: IslandView,
  trunk: Trunk,
  elements: readonly number[],
  nodes: readonly number[],
): Flows {
  if (trunk.shorted !== undefined) return { flows: [], undecided: trunk.shorted };
  const { network, circuit } = machine;
  const endsOf = (i: number) => [(circuit.elements[i] as Element).a, (circuit.elements[i] as Element).b];
  const own = islandsAt(network, trunk, elements, [...nodes, ...elements.flatMap(endsOf)]);
  const undecided = own.filter((i) => trunk.closed[i] === MAYBE);
  if (undecided.length > MOST_UNDECIDED) return { flows: [], undecided };
  const rim = [...new Set([...nodes, ...own.flatMap(endsOf)])].filter((n) => trunk.isTrunk[n] === 1);
  const key = `${own.join()}|${undecided.join()}|${elements.join()}|${nodes.join()}|${rim.map((n) => `${trunk.light[n]}:${trunk.heavy[n]}`).join()}`;
  let flows = view.shared.islands.get(key);
  if (flows === undefined) {
    flows = solveIsland(machine, trunk, own, undecided, rim, elements, nodes);
    view.shared.islands.set(key, flows);
  }
  return { flows, undecided };
}

/** Everything in the islands of these elements and nodes, of what conducts or may. */
function islandsAt(
  network: Network,
  trunk: Trunk,
  elements: readonly number[],
  nodes: readonly number[],
): readonly number[] {
  const at = elementsAt(network.circuit);
  const around = nodes.filter((n) => trunk.isTrunk[n] === 0).flatMap((n) => at[n] ?? []);
  const islands = new Set([...elements, ...around].map((i) => trunk.islandOf[i] as number));
  islands.delete(-1);
  return [...islands].flatMap((k) => trunk.islands[k]?.elements ?? []).sort((x, y) => x - y);
}

function solveIsland(
  machine: Machine,
  trunk: Trunk,
  own: readonly number[],
  undecided: readonly number[],
  rim: readonly number[],
  elements: readonly number[],
  nodes: readonly number[],
): readonly Flow[] {
  const corners = cornersOf(trunk, rim);
  const flows: Flow[] = [];
  const part = partOf(machine.network, own, trunk.isTrunk);
  const place = new Map(part.nodes.map((n, l) => [n, l]));
  const index = new Map(own.map((i, l) => [i, l]));
  for (let way = 0; way < 1 << undecided.length; way++) {
    const closed = new Uint8Array(own.length).fill(1);
    undecided.forEach((i, k) => {
      if (((way >> k) & 1) === 0) closed[index.get(i) as number] = 0;
    });
    for (const corner of corners) {
      const point = operatePart(part, closed, corner);
      machine.solves++;
      const voltsAt = (n: number) =>
        place.has(n) ? (point.volts[place.get(n) as number] as number) : (corner[n] as number);
      flows.push({
        volts: [
          ...nodes.map(voltsAt),
          ...elements.map(
            (i) =>
              voltsAt((machine.circuit.elements[i] as Element).a) - voltsAt((machine.circuit.elements[i] as Element).b),
          ),
        ],
        amps: elements.map((i) => (index.has(i) ? (point.amps[index.get(i) as number] as number) : 0)),
      });
    }
  }
  return flows;
}

/** Nodes of a rim whose corners are tried in every mixture; past it each one alone against the others. */
const MOST_MIXED = 3;

/** Volts of the trunk as an island may feel them: some of its rim sags while the rest does not. */
function cornersOf(trunk: Trunk, rim: readonly number[]): readonly Float64Array[] {
  const moving = rim.filter((n) => trunk.light[n] !== trunk.heavy[n]);
  const sagging = (which: (k: number) => boolean) => {
    const volts = trunk.light.slice();
    moving.forEach((n, k) => {
      if (which(k)) volts[n] = trunk.heavy[n] as number;
    });
    return volts;
  };
  if (moving.length <= MOST_MIXED)
    return Array.from({ length: 1 << moving.length }, (_, m) => sagging((k) => ((m >> k) & 1) === 1));
  const alone = moving.flatMap((_, k) => [sagging((j) => j === k), sagging((j) => j !== k)]);
  return [trunk.light, trunk.heavy, ...alone];
}

/** 1 if a part is on, 0 if not, between if that is not known. */
function partRange(machine: Machine, view: IslandView, s: State, seen: Seen, loads: readonly number[]): Range {
  let least = 0;
  let most = 0;
  const undecided: number[] = [];
  for (const l of loads) {
    const grades = gradesOf(machine, view, s, seen, l);
    undecided.push(...grades.undecided);
    if (grades.flows.length === 0) {
      most = 1;
      continue;
    }
    const on = grades.flows.map((g) => (g === "on" ? 1 : 0));
    least = Math.max(least, Math.min(...on));
    most = Math.max(most, Math.max(...on));
  }
  return { least, most, undecided };
}

/** How much a load does, each way the rest may be. Its latches must be inside. */
function gradesOf(machine: Machine, view: IslandView, s: State, seen: Seen, index: number) {
  const load = machine.circuit.loads[index] as Load;
  const judging =
    load.judge.kind === "latch" ? [load.judge.latch] : load.judge.kind === "latches" ? load.judge.latches : [];
  need(
    view,
    judging.filter((l) => view.scope.latches[l] === 0).map((l) => latchVariable(machine.circuit, l)),
  );
  const { flows, undecided } = flowsOf(machine, view, seen.trunk, [load.element], []);
  const isClosed = seen.trunk.closed[load.element] !== NO;
  return {
    flows: flows.map((f) => gradeBy(load, s, isClosed, Math.abs(f.amps[0] ?? 0), Math.abs(f.volts[0] ?? 0))),
    undecided,
  };
}

/** A load in one state, as far as the scope tells: how much it does, and whether it is asked for. */
export interface Felt {
  readonly on: On;
  readonly asked: boolean;
}

/** What a load does in a state of the scope. Names what is missing if that hangs on anything outside. */
export function feltBy(machine: Machine, s: State, index: number): Felt {
  if (machine.view === undefined) {
    const load = machine.circuit.loads[index] as Load;
    return {
      on: onState(machine, s, pointOf(machine, s), load),
      asked: isAskedFor(machine.circuit, askedIn(machine, s), load),
    };
  }
  const view = machine.view as IslandView;
  const seen = seenIn(machine, view, s);
  const { circuit } = machine;
  const load = circuit.loads[index] as Load;
  const grades = gradesOf(machine, view, s, seen, index);
  const [first] = grades.flows;
  let on = first ?? "off";
  if (first === undefined || grades.flows.some((g) => g !== first)) {
    if (needFor(machine, view, s, seen, grades.undecided)) return { on: "off", asked: false };
    on = onState(machine, s, pointOf(machine, s), load);
  }
  const [open, closed] = reachedIn(machine, seen);
  const asked = isAskedFor(circuit, open, load);
  if (asked !== isAskedFor(circuit, closed, load)) {
    const e = circuit.elements[load.element] as Element;
    need(view, waysTo(machine, view, s, seen.trunk, [e.a, e.b]));
  }
  return { on, asked };
}

function reachedIn(machine: Machine, seen: Seen): readonly [Asked, Asked] {
  if (seen.reached === undefined) {
    const { closed } = seen.trunk;
    const taking = (maybe: number) =>
      askedWith(
        machine.circuit,
        closed.map((c) => (c === MAYBE ? maybe : c)),
      );
    seen.reached = [taking(NO), taking(YES)];
  }
  return seen.reached;
}

/** Variables of the gates that may or may not join these nodes to the trunk. */
function waysTo(
  machine: Machine,
  view: IslandView,
  s: State,
  trunk: Trunk,
  starts: readonly number[],
): readonly Variable[] {
  const { circuit } = machine;
  const at = elementsAt(circuit);
  const been = new Set<number>();
  const missing = new Set<Variable>();
  const open = [...starts];
  for (let n = open.pop(); n !== undefined; n = open.pop()) {
    if (been.has(n)) continue;
    been.add(n);
    for (const i of at[n] ?? []) {
      const e = circuit.elements[i] as Element;
      if (trunk.closed[i] === NO || (e.class !== "conductor" && e.class !== "gate" && e.class !== "source")) continue;
      if (trunk.closed[i] === MAYBE) for (const v of missingIn(circuit, e.closed, s, view.scope)) missing.add(v);
      if (trunk.isTrunk[n] === 0) open.push(e.a === n ? e.b : e.a);
    }
  }
  return [...missing];
}
