import type { State } from "../../behave/state.ts";
import type { Circuit, Situation, Wanted } from "../../circuit/circuit.ts";
import { doerOf, doingIn } from "../doing.ts";
import type { RunFacts } from "../facts.ts";
import { isSo } from "../situation.ts";
import { given } from "./at-rest.ts";

/** Wishes that are not so in one rest state of the whole loom, each with the part that it is about. */
export const breaksIn = (run: RunFacts, state: State): readonly { readonly intent: string; readonly row: string }[] =>
  run.machine.circuit.intents.flatMap(({ id, wishes }) =>
    wishes.flatMap((w) =>
      isBroken(run, state, w) ? [{ intent: id, row: w.kind === "below" ? w.battery : w.part }] : [],
    ),
  );

function isBroken(run: RunFacts, state: State, wish: Wanted): boolean {
  const { circuit } = run.machine;
  const inAny = (when: readonly Situation[]) => when.some((s) => isSo(s, state));
  const onOf = (part: string) => {
    const doer = doerOf(circuit, part);
    return doer === undefined ? "off" : doingIn(run, state, doer);
  };
  const isWorking = (part: string) => {
    const on = onOf(part);
    return on === "on" || (on === "partly" && !isElectronics(circuit, part));
  };
  switch (wish.kind) {
    case "on only when":
      return isWorking(wish.part) && !inAny(wish.when);
    case "on when":
      return onOf(wish.part) !== "on" && wish.when.some((s) => isSo(s, state) && isElseUsual(circuit, state, s));
    case "off within":
      return isWorking(wish.part) && isSo(wish.after, state);
    case "below":
      return (
        wish.when.some((s) => isSo(s, state) && isElseUsual(circuit, state, s)) &&
        given(run, state, wish.battery) >= wish.amps
      );
    case "never with":
      return onOf(wish.part) === "on" && wish.others.some((o) => onOf(o) === "on");
    default:
      return wish satisfies never;
  }
}

/** Electronics that have supply and sleep are off. */
export const isElectronics = (circuit: Circuit, part: string): boolean =>
  circuit.loads.some((l) => l.part === part && l.family === "module");

const isElseUsual = (circuit: Circuit, state: State, { terms }: Situation): boolean =>
  circuit.inputs.every((input, i) => state.stands[i] === input.usual || terms.some((t) => t.input === i));
