import type { Path, Trouble } from "../problem.ts";
import { readTerminal } from "../terminal-ref.ts";
import { type Known, keyMustName, mustName } from "./known.ts";

const REQUEST = ["off", "on"];
const ASKABLE: ReadonlySet<string> = new Set(["low-side", "high-side", "half-bridge"]);

/**
 * The values of an input by the name it goes by: a world input, a switch, or an output pin whose logic is not known.
 * "no such" for a name of nothing, undefined when it is there and cannot be read.
 */
function inputValues(known: Known, name: string): readonly string[] | "no such" | undefined {
  if (known.inputs.has(name)) return known.inputs.get(name);
  if (!name.includes(".")) return "no such";
  const { part: id, terminal } = readTerminal(name);
  if (!known.parts.has(id)) return "no such";
  const part = known.parts.get(id);
  if (part === undefined) return undefined;
  if (part.text.of === undefined) return "no such";
  const definition = known.definitions.get(part.text.of);
  if (definition === undefined) return undefined;
  const pin = definition.pins.find((p) => p.pin === terminal);
  const isRequest = pin !== undefined && ASKABLE.has(pin.kind) && !Object.hasOwn(definition.logic?.on ?? {}, terminal);
  return isRequest ? REQUEST : "no such";
}

/** Troubles of `{"S1": "run"}` or `{"S1": ["run", "start"]}`: inputs that are there, with values that they have. */
export function* inputTroubles(
  known: Known,
  path: Path,
  situation: Readonly<Record<string, string | readonly string[]>>,
): Generator<Trouble> {
  for (const [name, said] of Object.entries(situation)) {
    const values = inputValues(known, name);
    if (values === "no such") {
      yield* keyMustName(
        known,
        [...path, name],
        known.inputs.keys(),
        "a switch, an input of the world or an output without known logic",
      );
      continue;
    }
    if (values === undefined) continue;
    const things = `a value of ${name}`;
    if (typeof said === "string") yield* mustName(known, [...path, name], said, values, things);
    else for (const [i, one] of said.entries()) yield* mustName(known, [...path, name, i], one, values, things);
  }
}
