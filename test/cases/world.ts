import type { Loom } from "@loomproof/netlist";
import type { Case, CaseCondition, CasePart, RelayPart } from "./case-types.ts";

// What is moved besides switches, what cannot be together, and what the owner says is meant.

type WorldItem = Loom["world"][number];
type Meant = Loom["meant"][number];

const switchesOf = (one: Case): readonly string[] => one.parts.filter((p) => p.kind === "switch").map((p) => p.id);

/** Inputs that the loom keeps: its switches, and what some part reads. Another can change nothing and is left out. */
export function inputIds(one: Case): readonly string[] {
  const kept = new Set([...switchesOf(one), ...one.parts.flatMap(inputsRead)]);
  return Object.keys(one.inputs).filter((id) => kept.has(id));
}

/** Inputs that are no switch become world inputs. */
export function convertWorld(one: Case): WorldItem[] {
  const switches = switchesOf(one);
  const inputs = inputIds(one).flatMap((id): WorldItem[] => {
    const input = one.inputs[id];
    return input === undefined || switches.includes(id) ? [] : [{ id, values: [...input.values], usual: input.start }];
  });
  const never = one.impossible_together.map((together, i): WorldItem => ({ id: `n${i + 1}`, never: { ...together } }));
  return [...inputs, ...never];
}

function inputsRead(part: CasePart): readonly string[] {
  if (part.kind === "load") return part.emf === undefined ? [] : [part.emf.input];
  if (part.kind !== "device") return [];
  const conditions = [...part.inside.flatMap((e) => e.when ?? []), ...part.logic.map((l) => l.when)];
  return conditions.flatMap(inputsIn);
}

function inputsIn(condition: CaseCondition): readonly string[] {
  if ("input" in condition) return [condition.input];
  if ("not" in condition) return inputsIn(condition.not);
  if ("all" in condition) return condition.all.flatMap(inputsIn);
  return "any" in condition ? condition.any.flatMap(inputsIn) : [];
}

/** A relay meant to seal itself in: through the contact whose make side is wired to its own coil. */
export function convertMeant(one: Case): Meant[] {
  const sealing = one.parts.filter((p): p is RelayPart => p.kind === "relay" && p.intended === "seal-in latch");
  return sealing.map((relay, i): Meant => {
    const own = relay.contacts.find((c) =>
      isJoined(one, `${relay.id}.${c.open_contact}`, `${relay.id}.${relay.coil[0]}`),
    );
    const through: [string, string] = [own?.common ?? "", own?.open_contact ?? ""];
    return {
      id: `m${i + 1}`,
      "seal-in": relay.id,
      through,
      set: moves(one, relay.id, "on"),
      clear: moves(one, relay.id, "off"),
    };
  });
}

const isJoined = (one: Case, a: string, b: string): boolean =>
  one.wires.some((w) => (w.from === a && w.to === b) || (w.from === b && w.to === a));

/** The moves of those steps in which the relay goes on (or off). */
function moves(one: Case, relay: string, to: "on" | "off"): Record<string, string>[] {
  return one.steps
    .filter((s, i) => s.states[relay] === to && (one.steps[i - 1]?.states[relay] ?? "off") !== to)
    .map((s) => ({ ...s.set }));
}
