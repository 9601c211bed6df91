import type { Circuit, Element, Load } from "../circuit/circuit.ts";
import { loadProbe } from "./bay.ts";
import { elementsAt } from "./feed.ts";
import { gradeBy, type On } from "./grade.ts";
import { type Agreed, agreedOn, flowsOf } from "./islands.ts";
import { type Asked, askedIn, askedWith, isAskedFor, onState } from "./loads.ts";
import { type IslandView, islandAt, moversIn, need, needFor, type Seen, seenIn, tightOf } from "./look.ts";
import { type Machine, pointOf } from "./machine.ts";
import { latchVariable, MAYBE, NO, type Sight, YES } from "./scope.ts";
import type { State } from "./state.ts";
import type { Topology } from "./topology.ts";
import type { Trunk } from "./trunk.ts";

/** A load in one state, as far as the scope tells: how much it does, and whether it is asked for. */
export interface Felt {
  readonly on: On;
  readonly asked: boolean;
}

/** What load `index` does in a state. A view names what is missing if that hangs on anything outside it. */
export function feltBy(machine: Machine, s: State, index: number): Felt {
  const load = machine.circuit.loads[index] as Load;
  if (machine.view === undefined)
    return {
      on: onState(machine, s, pointOf(machine, s), load),
      asked: isAskedFor(machine.circuit, askedIn(machine, s), load),
    };
  const view = machine.view as IslandView;
  const seen = seenIn(machine, view, s, view);
  const on = gradeIn(machine, view, s, seen, index, { sight: view, sagMatters: false });
  const asked = askedBy(machine, seen.trunk, load, index);
  if (typeof asked === "boolean") return { on, asked };
  need(view, moversIn(machine, s, asked, view));
  return { on, asked: false };
}

interface GradeOptions {
  readonly sight: Sight;
  /**
   * Whether to name what moves the trunk, if only that decides: always where a state hangs on it. Where a lamp is a
   * little brighter or darker by what else draws, it is looked at with all else as usual.
   */
  readonly sagMatters: boolean;
}

/** How much a load does. Its latches must be inside. */
export function gradeIn(
  machine: Machine,
  view: IslandView,
  s: State,
  seen: Seen,
  index: number,
  options: GradeOptions,
): On {
  const { sight, sagMatters } = options;
  const load = machine.circuit.loads[index] as Load;
  for (const l of judgesOf(load)) if (view.scope.latches[l] === 0) need(view, [latchVariable(machine.circuit, l)]);
  let grade = gradeAgreed(machine, s, seen, index, false);
  if ("turned" in grade && grade.turned.length === 0)
    grade = gradeAgreed(machine, s, tightOf(machine, seen), index, true);
  if ("is" in grade) return grade.is;
  if ((sagMatters || grade.turned.length > 0) && needFor(machine, view, s, seen, grade.turned, sight) === "named")
    return "off";
  return onState(machine, s, pointOf(machine, s), load);
}

/** Latches that a load is judged by. */
const judgesOf = ({ judge }: Load): readonly number[] =>
  judge.kind === "latch" ? [judge.latch] : judge.kind === "latches" ? judge.latches : [];

function gradeAgreed(machine: Machine, s: State, seen: Seen, index: number, isLast: boolean): Agreed<On> {
  const { circuit } = machine;
  const probe = loadProbe(circuit, index);
  const island = islandAt(machine, seen, probe);
  const { closed, shorted } = seen.trunk.topology;
  if (island === undefined) return { turned: shorted ?? [] };
  const load = circuit.loads[index] as Load;
  const isClosed = closed[load.element] !== NO;
  let asked = (isClosed ? 2 : 0) | (isLast ? 1 : 0);
  for (const l of judgesOf(load)) asked = asked * 2 + (s.latches[l] as number);
  asked = asked * circuit.loads.length + index;
  let grade = island.grades.get(asked);
  if (grade === undefined) {
    const flows = flowsOf(machine, island, probe);
    grade = agreedOn(
      flows,
      (stage) =>
        flows.of(stage).map((f) => gradeBy(load, s, isClosed, Math.abs(f.amps[0] ?? 0), Math.abs(f.volts[0] ?? 0))),
      isLast,
    );
    island.grades.set(asked, grade);
  }
  return grade;
}

/** Whether a load has its designed feed and return, or the elements that this hangs on. */
function askedBy({ circuit }: Machine, { topology }: Trunk, load: Load, index: number): boolean | readonly number[] {
  let asked = topology.asked.get(index);
  if (asked === undefined) {
    const [open, closed] = reachedIn(circuit, topology);
    const is = isAskedFor(circuit, open, load);
    asked = is === isAskedFor(circuit, closed, load) ? is : decisive(circuit, topology, load);
    topology.asked.set(index, asked);
  }
  return asked;
}

const taking = (closed: Uint8Array, maybe: number): Uint8Array => closed.map((c) => (c === MAYBE ? maybe : c));

function reachedIn(circuit: Circuit, topology: Topology): readonly [Asked, Asked] {
  const { closed } = topology;
  topology.reached ??= [askedWith(circuit, taking(closed, NO)), askedWith(circuit, taking(closed, YES))];
  return topology.reached;
}

/** Gates by which alone a load comes to be asked for, or no longer is; all on its ways if none does so alone. */
function decisive(circuit: Circuit, topology: Topology, load: Load): readonly number[] {
  const e = circuit.elements[load.element] as Element;
  const gates = waysTo(circuit, topology, [e.a, e.b]);
  const isAsked = (maybe: number, gate: number, is: number) => {
    const closed = taking(topology.closed, maybe);
    closed[gate] = is;
    return isAskedFor(circuit, askedWith(circuit, closed), load);
  };
  const alone = gates.filter((g) => isAsked(NO, g, YES) || !isAsked(YES, g, NO));
  return alone.length > 0 ? alone : gates;
}

/** Gates that may or may not join these nodes to the trunk. */
function waysTo(circuit: Circuit, { closed, isTrunk }: Topology, starts: readonly number[]): readonly number[] {
  const at = elementsAt(circuit);
  const been = new Set<number>();
  const gates = new Set<number>();
  const open = [...starts];
  for (let n = open.pop(); n !== undefined; n = open.pop()) {
    if (been.has(n)) continue;
    been.add(n);
    for (const i of at[n] ?? []) {
      const e = circuit.elements[i] as Element;
      if (closed[i] === NO || (e.class !== "conductor" && e.class !== "gate" && e.class !== "source")) continue;
      if (closed[i] === MAYBE) gates.add(i);
      if (isTrunk[n] === 0) open.push(e.a === n ? e.b : e.a);
    }
  }
  return [...gates];
}
