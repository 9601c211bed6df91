import type { z } from "zod";
import type { conditionSchema } from "../../parts/condition.ts";
import type { ModuleDefinitionText } from "../../parts/module-definition.ts";
import type { Path, Trouble } from "../problem.ts";
import type { FoundItems } from "../shape.ts";
import { mustBe } from "../words.ts";
import { type Known, keyMustName, mustName } from "./known.ts";

type ConditionText = z.infer<typeof conditionSchema>;
type AtomsText = Omit<ConditionText[number], "not">;

/** Names inside one definition. */
interface Names {
  readonly known: Known;
  readonly path: Path;
  readonly pins: ReadonlySet<string>;
  readonly inputPins: ReadonlySet<string>;
  readonly outputPins: ReadonlySet<string>;
  readonly rails: ReadonlySet<string>;
  readonly states: ReadonlySet<string>;
}

const OUTPUTS: ReadonlySet<string> = new Set(["low-side", "high-side", "half-bridge"]);
const PIN = "a pin of this definition";

/** What definitions name inside themselves, and the inputs that their logic asks. */
export function* definitionTroubles(known: Known, { definitions }: FoundItems): Generator<Trouble> {
  for (const { at, item } of definitions) {
    if (item === undefined) continue;
    const names = namesOf(known, ["definitions", at], item);
    yield* twiceTroubles(names, item);
    yield* railTroubles(names, item);
    yield* pinTroubles(names, item);
    yield* insideTroubles(names, item);
    yield* logicTroubles(names, item);
  }
}

const namesOf = (known: Known, path: Path, d: ModuleDefinitionText): Names => ({
  known,
  path,
  pins: new Set(d.pins.map((p) => p.pin)),
  inputPins: new Set(d.pins.filter((p) => p.kind === "input").map((p) => p.pin)),
  outputPins: new Set(d.pins.filter((p) => OUTPUTS.has(p.kind)).map((p) => p.pin)),
  rails: new Set((d.rails ?? []).map((r) => r.id)),
  states: new Set((d.states ?? []).map((s) => s.id)),
});

function* twiceTroubles({ known, path }: Names, d: ModuleDefinitionText): Generator<Trouble> {
  const lists = [
    ["pins", "pin", d.pins.map((p) => p.pin)],
    ["rails", "id", (d.rails ?? []).map((r) => r.id)],
    ["states", "id", (d.states ?? []).map((s) => s.id)],
  ] as const;
  for (const [list, key, ids] of lists)
    for (const [i, id] of ids.entries())
      if (ids.indexOf(id) < i) yield mustBe(known.root, [...path, list, i, key], "a name that is not used before");
}

function* railTroubles({ known, path, pins }: Names, d: ModuleDefinitionText): Generator<Trouble> {
  for (const [i, rail] of (d.rails ?? []).entries()) {
    const at = [...path, "rails", i, "fedBy"];
    if (typeof rail.fedBy === "string") yield* mustName(known, at, rail.fedBy, pins, PIN);
    else for (const [j, pin] of rail.fedBy.entries()) yield* mustName(known, [...at, j], pin, pins, PIN);
  }
}

function* pinTroubles({ known, path, pins, rails }: Names, d: ModuleDefinitionText): Generator<Trouble> {
  const pinsAndRails = new Set([...pins, ...rails]);
  const labels = new Set([...pinsAndRails, ...d.pins.flatMap((p) => p.name ?? [])]);
  for (const [i, pin] of d.pins.entries()) {
    const at = [...path, "pins", i];
    for (const [j, fed] of (pin.wakeFeeds ?? []).entries())
      yield* mustName(known, [...at, "wakeFeeds", j], fed, pins, PIN);
    if (pin.feed !== undefined)
      yield* mustName(known, [...at, "feed"], pin.feed, pinsAndRails, "a pin or rail of this definition");
    if (pin.bias !== undefined && "up" in pin.bias && pin.bias.to !== undefined)
      yield* mustName(known, [...at, "bias", "to"], pin.bias.to, labels, "a pin or rail of this definition");
    if (typeof pin.clamp === "object" && pin.clamp.kind === "diode")
      yield* mustName(known, [...at, "clamp", "to"], pin.clamp.to, pinsAndRails, "a rail or pin of this definition");
  }
}

function* insideTroubles(names: Names, d: ModuleDefinitionText): Generator<Trouble> {
  for (const [i, element] of (d.inside ?? []).entries()) {
    const at = [...names.path, "inside", i];
    yield* betweenTroubles(names, [...at, "between"], element.between);
    if (element.when !== undefined) yield* conditionTroubles(names, [...at, "when"], element.when);
  }
}

function* betweenTroubles({ known, pins }: Names, path: Path, between: readonly [string, string]): Generator<Trouble> {
  for (const [i, pin] of between.entries()) yield* mustName(known, [...path, i], pin, pins, PIN);
  if (between[0] === between[1]) yield mustBe(known.root, path, "two pins that differ");
}

function* logicTroubles(names: Names, { states, logic }: ModuleDefinitionText): Generator<Trouble> {
  const { path } = names;
  for (const [i, state] of (states ?? []).entries())
    yield* conditionTroubles(names, [...path, "states", i, "when"], state.when);
  if (logic?.awake !== undefined) yield* conditionTroubles(names, [...path, "logic", "awake"], logic.awake);
  for (const [pin, condition] of Object.entries(logic?.on ?? {})) {
    const at = [...path, "logic", "on", pin];
    yield* keyMustName(names.known, at, names.outputPins, "an output pin of this definition");
    yield* conditionTroubles(names, at, condition);
  }
}

function* conditionTroubles(names: Names, path: Path, condition: ConditionText): Generator<Trouble> {
  for (const [i, { not, ...atoms }] of condition.entries()) {
    yield* atomTroubles(names, [...path, i], atoms);
    if (Array.isArray(not))
      for (const [j, one] of not.entries()) yield* atomTroubles(names, [...path, i, "not", j], one);
    else if (not !== undefined) yield* atomTroubles(names, [...path, i, "not"], not);
  }
}

function* atomTroubles(names: Names, path: Path, atoms: AtomsText): Generator<Trouble> {
  const { known } = names;
  for (const pin of Object.keys(atoms.pin ?? {}))
    yield* keyMustName(known, [...path, "pin", pin], names.inputPins, "an input pin of this definition");
  for (const state of Object.keys(atoms.state ?? {}))
    yield* keyMustName(known, [...path, "state", state], names.states, "a state of this definition");
  if (atoms.volts !== undefined) yield* betweenTroubles(names, [...path, "volts", "between"], atoms.volts.between);
  for (const [input, value] of Object.entries(atoms.input ?? {})) {
    const at = [...path, "input", input];
    const values = known.inputs.get(input);
    if (!known.inputs.has(input))
      yield* keyMustName(known, at, known.inputs.keys(), "an input of the world or a switch");
    else if (values !== undefined) yield* mustName(known, at, value, values, `a value of ${input}`);
  }
}
