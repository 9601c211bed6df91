import type { Load } from "../circuit/circuit.ts";
import { askedBy } from "./asked.ts";
import { loadProbe } from "./bay.ts";
import { gradeBy, type On } from "./grade.ts";
import { type Agreed, agreedOn, flowsOf } from "./islands.ts";
import { askedIn, isAskedFor, onState } from "./loads.ts";
import { type IslandView, islandAt, moversIn, need, needFor, type Seen, seenIn, tightOf } from "./look.ts";
import { type Machine, pointOf } from "./machine.ts";
import { latchVariable, NO, type Sight } from "./scope.ts";
import type { State } from "./state.ts";

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
  const asked = askedBy(machine.circuit, seen.trunk.topology, index);
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
