import { pointOf } from "../../behave/machine.ts";
import { hasInput } from "../../behave/scope.ts";
import type { State } from "../../behave/state.ts";
import type { Circuit, Situation, Wanted } from "../../circuit/circuit.ts";
import { type Doer, doingIn } from "../doing.ts";
import type { Facts, RunFacts } from "../facts.ts";
import { foundAt } from "../found.ts";
import { type Rest, restsAt } from "../rest.ts";
import { isSo } from "../situation.ts";
import { type Judging, TOO_MANY } from "./breach.ts";

// Wishes about a situation with all else as usual: that something is on, that the battery gives little.

/** Ways in which the named inputs may stand that are looked at for one wish. */
const MOST_WAYS = 200;

/** Not on at rest in a situation. */
export function judgeOnWhen(
  { runs, circuit }: Facts,
  wish: Extract<Wanted, { readonly kind: "on only when" | "on when" }>,
  doer: Doer,
  judging: Judging,
): void {
  for (const run of runs)
    for (const { at, state } of restsIn(run, wish.when, judging)) {
      const on = doingIn(run, state, doer);
      if (on === "on") continue;
      // Something that works only by an output of unknown logic is not found wanting.
      const outputs = doer.kind === "loads" ? hangsOnRequests(circuit, wish.part, run, state, doer, judging) : [];
      if (outputs.length > 0) judging.missing.add(`what ${outputs.join(" and ")} waits for`);
      else judging.breach(run, at, { kind: "not on", on }, { state, ends: state.ends });
    }
}

/** Outputs of unknown logic with which it is on in a found state, where switches and world stand as here. */
function hangsOnRequests(
  circuit: Circuit,
  part: string,
  run: RunFacts,
  state: State,
  doer: Doer,
  judging: Judging,
): readonly string[] {
  for (const { first, end, machine } of run.reachable.searches) {
    const scope = machine.view?.scope;
    for (let at = first; at < end; at++) {
      const there = foundAt(run, at);
      if (!there.rest) continue;
      const asking = judging.asking(run, there.state);
      if (asking.length !== 1 || !run.loadsAt(at).some((f) => f.load.part === part && f.on === "on")) continue;
      const isSame = circuit.inputs.every(
        (input, i) => input.kind === "request" || !hasInput(scope, i) || there.state.stands[i] === state.stands[i],
      );
      if (isSame && doingIn(run, run.wholeAt(at), doer) === "on") return asking;
    }
  }
  return [];
}

/** What the battery gives at rest, against what it may give. */
export function judgeBelow({ runs }: Facts, wish: Extract<Wanted, { readonly kind: "below" }>, judging: Judging): void {
  for (const run of runs)
    for (const { at, state } of restsIn(run, wish.when, judging)) {
      const amps = given(run, state, wish.battery);
      if (amps >= wish.amps) judging.breach(run, at, { kind: "gives", amps }, { state, ends: state.ends });
      else for (const rail of drawsUnknown(run, state)) judging.missing.add(`what ${rail} draws (draw of its rail)`);
    }
}

/** Amps that a battery gives; nothing while it is charged. */
export function given({ machine }: RunFacts, state: State, battery: string): number {
  const { op } = pointOf(machine, state);
  const out = machine.circuit.elements.reduce(
    (sum, e, i) => (e.class === "source" && e.owner.id === battery ? sum - (op.amps[i] ?? 0) : sum),
    0,
  );
  return Math.max(0, out);
}

/** Electronics that have supply and of which the loom does not say what they draw. */
const drawsUnknown = ({ machine: { circuit } }: RunFacts, state: State): readonly string[] =>
  circuit.latches.flatMap((l, i) =>
    l.kind === "rail" && state.latches[i] === 1 && !circuit.loads.some((x) => x.part === l.part) ? [l.part] : [],
  );

/** Rest states in any of the situations, with everything that they do not name as usual. */
function restsIn(run: RunFacts, situations: readonly Situation[], judging: Judging): readonly Rest[] {
  const rests = new Map<string, Rest>();
  for (const situation of situations) {
    const ways = waysToStand(run.machine.circuit, situation);
    if (ways === undefined) {
      judging.missing.add(TOO_MANY);
      continue;
    }
    const own = ways.flatMap((stands) => restsAt(run, stands).filter((r) => isSo(situation, r.state)));
    if (own.length === 0 && ways.length > 0)
      judging.missing.add(`how it comes to rest with ${situation.says}; nothing that can be switched leads there`);
    for (const r of own) rests.set(r.state.pointKey, r);
  }
  return [...rests.values()];
}

/** Every way in which the inputs of a situation may stand; undefined if there are too many. */
function waysToStand(circuit: Circuit, { terms }: Situation): readonly Uint8Array[] | undefined {
  let ways: readonly Uint8Array[] = [Uint8Array.from(circuit.inputs, (i) => i.usual)];
  for (const term of terms) {
    const stands = Array.from({ length: circuit.inputs[term.input]?.positions ?? 0 }, (_, s) => s).filter((s) =>
      term.kind === "engine" ? (s === 1) === term.is : term.stands[s] === true,
    );
    ways = ways.flatMap((w) => stands.map((s) => w.with(term.input, s)));
    if (ways.length > MOST_WAYS) return undefined;
  }
  return ways;
}
