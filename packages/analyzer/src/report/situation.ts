import { extraRelays } from "../behave/cold.ts";
import { within } from "../behave/machine.ts";
import type { State } from "../behave/state.ts";
import type { Circuit, Input } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { foundAt } from "../facts/found.ts";
import type { Rest } from "../facts/rest.ts";
import { inputsOf, list } from "../facts/words.ts";

/** One situation: where the inputs stand, and whether something is still in from before. */
export interface Situation {
  readonly title: string;
  readonly inputs: Readonly<Record<string, string>>;
  /** What was before, where that decides: "after run". */
  readonly after?: string;
  /** Relays that are in only because of what came before. */
  readonly heldIn: readonly string[];
  /** Same in two looms: the same situation. */
  readonly id: string;
}

/** A rest state as a person would call it: "Key off, after run: K3 still in". */
export function situationOf(run: RunFacts, rest: Rest): Situation {
  const { state, extra } = rest;
  const { circuit } = run.machine;
  const heldIn = extra.map((r) => circuit.latches[r]?.id ?? "");
  const shown = shownInputs(circuit, state);
  const left = leftBehind(circuit, state);
  const after = heldIn.length > 0 ? before(run, rest) : undefined;
  const memory = heldIn.length > 0 ? [`${after === undefined ? "" : `${after}: `}${list(heldIn)} still in`] : [];
  return {
    title: [...shown, ...left, ...memory].join(", ") || "as usual",
    inputs: inputsOf(circuit, state),
    ...(after === undefined ? {} : { after }),
    heldIn,
    id: [
      ...circuit.inputs.flatMap((i, k) => (isShown(circuit, state, i, k) ? [`${i.id} ${standOf(i, state, k)}`] : [])),
      ...left,
      ...heldIn,
    ].join("|"),
  };
}

const standOf = (input: Input, state: State, index: number): string => input.stands[state.stands[index] ?? 0] ?? "";

/** The key wherever it stands, other inputs where they do not stand as usual; an engine by whether it runs. */
function isShown(circuit: Circuit, state: State, input: Input, index: number): boolean {
  const works = input.kind === "world" ? circuit.works.find((w) => w.part === input.id) : undefined;
  if (works !== undefined) return state.latches[works.latch] === 1;
  return input.isKey || state.stands[index] !== input.usual;
}

/** Words for the inputs, the key first. */
function shownInputs(circuit: Circuit, state: State): readonly string[] {
  return circuit.inputs
    .map((input, index) => ({ input, index }))
    .filter(({ input, index }) => isShown(circuit, state, input, index))
    .sort((a, b) => Number(b.input.isKey) - Number(a.input.isKey))
    .map(({ input, index }) => `${longName(input)} ${standOf(input, state, index)}`);
}

/** A switch by its label, an output by its pin and what that is for: "A1.4 (pump relay)". */
function longName({ kind, id, label }: Input): string {
  if (label === "" || kind === "world") return id;
  return kind === "request" ? `${id} (${label})` : label;
}

/** Latching relays that do not stand as they were delivered. */
const leftBehind = (circuit: Circuit, state: State): readonly string[] =>
  circuit.latches.flatMap((l, i) =>
    l.kind === "armature" && l.kept && (state.latches[i] === 1) !== l.delivered
      ? [`${l.id} left ${l.delivered ? "out" : "in"}`]
      : [],
  );

/** Where the key stood when what is still in was last in for a reason of its own; without a key, what stood elsewhere. */
function before(run: RunFacts, { at, extra }: Rest): string | undefined {
  const { inputs } = run.machine.circuit;
  const { stands } = foundAt(run, at).state;
  for (let i = foundAt(run, at).before; i >= 0; i = foundAt(run, i).before) {
    const was = foundAt(run, i).state;
    if (!extra.some((r) => was.latches[r] === 1)) continue;
    const memory = within(run.searchOf(i).machine, (m) => extraRelays(m, was));
    const moved = inputs.flatMap((_, k) => (was.stands[k] === stands[k] ? [] : [k]));
    const told = moved.find((k) => inputs[k]?.isKey) ?? moved[0];
    const input = told === undefined ? undefined : inputs[told];
    if (memory.length === 0 && input !== undefined && told !== undefined)
      return `after ${input.isKey ? "" : `${longName(input)} `}${standOf(input, was, told)}`;
  }
  return undefined;
}
