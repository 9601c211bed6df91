import type { Drive, Latch } from "../circuit/circuit.ts";
import { latchProbe } from "./bay.ts";
import { gradeIn } from "./felt.ts";
import { type Agreed, agreedOn, type Flow, flowsOf } from "./islands.ts";
import { type Learned, outsideOf } from "./learned.ts";
import { type IslandView, islandAt, need, needFor, noLooks, type Seen, seenIn, tightOf } from "./look.ts";
import { type Machine, pointOf, rounded, turned, viewedAs } from "./machine.ts";
import { logicIn, MAYBE, missingIn, type Scope, type Sight, type Variable, YES } from "./scope.ts";
import type { State } from "./state.ts";
import type { Under } from "./under.ts";
import { isCutOff, splitOf, type Want, wantAt } from "./want.ts";

export interface ViewOptions {
  readonly missing?: Set<Variable>;
  readonly learned?: ReadonlyMap<number, Learned>;
  readonly sagAsUsual?: boolean;
  readonly under?: Under | undefined;
}

/** The same machine moving only what is in a scope, decided island by island. */
export function viewed(machine: Machine, scope: Scope, options: ViewOptions = {}): Machine {
  const { missing = new Set(), learned, sagAsUsual = false, under } = options;
  const latches = machine.circuit.latches.flatMap((_, i) => (scope.latches[i] === 1 ? [i] : []));
  const view: IslandView = {
    scope,
    missing,
    under,
    seen: { known: noLooks(), bare: noLooks() },
    passed: [],
    bySag: new Set(),
    sagAsUsual,
    asUsual: new Set(),
    outside: learned && outsideOf(scope, learned),
    wantsIn: (m, s, atOnce) => wantsIn(m, view, s, atOnce),
    base: machine,
    whole: () => byIslands(machine),
    // What was learned holds for the loom as it is, not with wires open.
    of: (other) => viewed(other, scope, { missing, sagAsUsual }),
  };
  return viewedAs(machine, latches, view);
}

const wholes = new WeakMap<Machine, Machine>();

/** The whole loom decided island by island: the same as solving it in every state, for less. */
export function byIslands(machine: Machine): Machine {
  let whole = wholes.get(machine);
  if (whole === undefined) {
    const { inputs, latches } = machine.circuit;
    const all = (list: { readonly length: number }) => new Uint8Array(list.length).fill(1);
    whole = viewed(machine, { inputs: all(inputs), latches: all(latches) });
    wholes.set(machine, whole);
  }
  return whole;
}

/** What the latches of a scope want, decided island by island. Names what it would have to know besides. */
function wantsIn(machine: Machine, view: IslandView, s: State, atOnce: boolean): (index: number) => Want {
  // While something changes at once, what is outside may be about to as well: nothing is known of it.
  const sight: Sight = atOnce ? { scope: view.scope } : view;
  let looked: Seen | undefined;
  // Most of what changes at once hangs on logic alone, or is cut off.
  const look = (): Seen => (looked ??= seenIn(machine, view, s, sight));
  return (index) => {
    const latch = machine.circuit.latches[index] as Latch;
    const { drive } = latch;
    // What is cut off asks for no drive, and so for nothing outside.
    if (isCutOff(latch, s)) return wantAt(latch, s, index, 0);
    if (drive.kind === "logic") {
      const is = logicIn(drive.logic, s, sight);
      if (is === MAYBE) need(view, missingIn(machine.circuit, drive.logic, s, sight));
      return wantAt(latch, s, index, is === YES ? 1 : 0);
    }
    const seen = look();
    if (drive.kind === "loads") {
      const isOn = drive.loads.some((l) => gradeIn(machine, view, s, seen, l, { sight, sagMatters: true }) === "on");
      return wantAt(latch, s, index, isOn ? 1 : 0);
    }
    let want = wantAgreed(machine, s, seen, index, false);
    if ("turned" in want && want.turned.length === 0)
      want = wantAgreed(machine, s, tightOf(machine, seen), index, true);
    if ("is" in want) return want.is === "split" ? splitOf(s, index) : want.is;
    // It hangs on something outside: name it; if there is nothing left to name, the whole loom decides.
    const left = needFor(machine, view, s, seen, want.turned, sight);
    if (left === "named") return "stay";
    if (left === "as usual") view.asUsual.add(index);
    return wantAt(latch, s, index, pointOf(machine, s).drives[index] ?? 0);
  };
}

const nameOf = (want: Want) => (typeof want === "object" ? "split" : want);

/** What a latch that is driven by amps or volts wants in every way its islands may be. */
function wantAgreed(
  machine: Machine,
  s: State,
  seen: Seen,
  index: number,
  isLast: boolean,
): Agreed<"stay" | "change" | "split"> {
  const { circuit } = machine;
  const probe = latchProbe(circuit, index);
  const island = islandAt(machine, seen, probe);
  if (island === undefined) return { turned: seen.trunk.topology.shorted ?? [] };
  const asked =
    (index << 6) | ((s.ends[index] as number) << 2) | ((s.latches[index] as number) << 1) | (isLast ? 1 : 0);
  let want = island.wants.get(asked);
  if (want === undefined) {
    const latch = circuit.latches[index] as Latch;
    const flows = flowsOf(machine, island, probe);
    const wantIn = (f: Flow) => nameOf(wantAt(latch, s, index, driveBy(latch.drive as SolvedDrive, f)));
    want = agreedOn(flows, (stage) => flows.of(stage).map(wantIn), isLast);
    island.wants.set(asked, want);
  }
  return want;
}

type SolvedDrive = Extract<Drive, { readonly kind: "amp-turns" | "volts" }>;

const driveBy = (drive: SolvedDrive, { volts, amps }: Pick<Flow, "volts" | "amps">): number =>
  drive.kind === "amp-turns"
    ? turned(drive, (_, k) => amps[k] as number)
    : rounded(drive.sign * ((volts[0] as number) - (volts[1] as number)));
