import {
  type Intent,
  naturalOrder,
  type ResolvedLoom,
  type SituationText,
  standardJoins,
  type Wish,
} from "@loomproof/netlist";
import type { Intention, Situation, Term, Wanted } from "./circuit.ts";
import type { Draft } from "./draft.ts";

/** What the owner wants, in terms of inputs and latches. What names nothing of the loom is said to be lacking. */
export const intentionsOf = (loom: ResolvedLoom, draft: Draft): readonly Intention[] =>
  loom.intents.map((intent) => intentionOf(intent, loom, draft));

function intentionOf({ id, wishes, lacks }: Intent, loom: ResolvedLoom, draft: Draft): Intention {
  const missing = [...lacks];
  const wanted = wishes.flatMap((w) => wantedOf(w, loom, draft, (what) => void missing.push(what)) ?? []);
  return { id, wishes: wanted, lacks: missing };
}

function wantedOf(w: Wish, loom: ResolvedLoom, draft: Draft, lacks: (what: string) => void): Wanted | undefined {
  const canBeOn = (part: string): boolean => {
    const can = draft.loads.some((l) => l.part === part) || draft.works.some((x) => x.part === part);
    if (!can) lacks(`${part} is nothing that goes on and off`);
    return can;
  };
  const read = (text: SituationText): Situation | undefined => situationOf(text, loom, draft, lacks);
  const all = (list: readonly SituationText[]): readonly Situation[] | undefined => {
    const when = list.map(read);
    return when.some((s) => s === undefined) ? undefined : (when as readonly Situation[]);
  };
  switch (w.kind) {
    case "on only when":
    case "on when": {
      const when = all(w.when);
      return canBeOn(w.part) && when ? { kind: w.kind, part: w.part, when } : undefined;
    }
    case "off within": {
      const after = w.after === undefined ? whenOff(draft) : read(w.after);
      if (w.after === undefined && after === undefined) lacks("after what it must be off (after); there is no key");
      return canBeOn(w.part) && after ? { kind: w.kind, part: w.part, seconds: w.seconds, after } : undefined;
    }
    case "below": {
      const when = all(w.when);
      const isBattery = loom.parts.some((p) => p.id === w.battery && p.family === "battery");
      if (!isBattery) lacks(`${w.battery} is no battery`);
      return isBattery && when ? { kind: w.kind, battery: w.battery, amps: w.amps, when } : undefined;
    }
    case "never with": {
      const others = w.others.filter((o) => o !== w.part).toSorted(naturalOrder);
      if (others.length === 0) lacks(`with what ${w.part} must never be on (neverWith)`);
      return [w.part, ...others].every(canBeOn) ? { kind: w.kind, part: w.part, others } : undefined;
    }
    default:
      return w satisfies never;
  }
}

/** The key, else the main switch, in its first position. */
function whenOff(draft: Draft): Situation | undefined {
  const key = draft.inputs.findIndex((i) => i.isKey && i.isMain !== true);
  const at = key >= 0 ? key : draft.inputs.findIndex((i) => i.isKey);
  const input = draft.inputs[at];
  if (input === undefined) return undefined;
  const stands = input.stands.map((_, s) => s === input.usual);
  return { terms: [{ kind: "input", input: at, stands }], says: `${nameOf(input)} ${input.stands[input.usual]}` };
}

/** A situation of the file in terms of inputs; undefined, and said to be lacking, if it names what moves nothing. */
export function situationOf(
  text: SituationText,
  loom: ResolvedLoom,
  draft: Draft,
  lacks: (what: string) => void,
): Situation | undefined {
  const terms: Term[] = [];
  const says: string[] = [];
  for (const [name, values] of Object.entries(text)) {
    const named = termOf(name, values, loom, draft);
    if (named === undefined) {
      lacks(`nothing in the loom hangs on ${name}`);
      return undefined;
    }
    terms.push(...named.terms);
    says.push(`${named.name} ${values.join(" or ")}`);
  }
  return { terms, says: says.join(", ") };
}

const nameOf = (input: Draft["inputs"][number]): string =>
  input.kind === "switch" && input.label !== "" ? input.label : input.id;

interface Named {
  readonly name: string;
  readonly terms: readonly Term[];
}

/** An input by the name that a person uses: its own, or that of a switch which the world moves. */
function termOf(name: string, values: readonly string[], loom: ResolvedLoom, draft: Draft): Named | undefined {
  const own = draft.inputs.findIndex((i) => i.id === name);
  const input = draft.inputs[own];
  if (input !== undefined) {
    const work = draft.works.find((w) => w.part === name);
    if (work !== undefined && input.kind === "world") {
      const [runs, stops] = [values.includes("running"), values.includes("stopped")];
      const { latch } = work;
      return { name, terms: runs && stops ? [] : [{ kind: "engine", input: own, latch, is: runs }] };
    }
    const stands = input.stands.map((s) => values.includes(s));
    return { name: nameOf(input), terms: [{ kind: "input", input: own, stands }] };
  }
  const world = loom.world.find((w) => w.moves.includes(name));
  const moved = draft.inputs.findIndex((i) => i.id === world?.id);
  const part = loom.parts.find((p) => p.id === name);
  if (moved < 0 || part === undefined || (part.family !== "switch" && part.family !== "key-switch")) return undefined;
  const joins = part.values.joins ?? (part.family === "switch" ? standardJoins(part.kind) : {});
  const positions = part.values.positions ?? Object.keys(joins);
  const stands = (draft.inputs[moved]?.stands ?? []).map((_, s) =>
    values.includes(positions[Math.min(s, positions.length - 1)] ?? ""),
  );
  return { name: part.label === "" ? name : part.label, terms: [{ kind: "input", input: moved, stands }] };
}
