import type { Trouble } from "../problem.ts";
import type { FoundItems } from "../shape.ts";
import { mustBe } from "../words.ts";
import { inputTroubles } from "./inputs.ts";
import { isSwitch, type Known, mustName } from "./known.ts";

/** World inputs: their values, and the switches they move. What is said never to be together. */
export function* worldTroubles(known: Known, { world }: FoundItems): Generator<Trouble> {
  const movedBy = new Map<string, string>();
  for (const { at, item } of world) {
    const path = ["world", at];
    if (item === undefined) continue;
    if ("never" in item) {
      if (Object.keys(item.never).length === 0)
        yield mustBe(known.root, [...path, "never"], "at least one input with its value");
      yield* inputTroubles(known, [...path, "never"], item.never);
      continue;
    }
    for (const [i, value] of item.values.entries())
      if (item.values.indexOf(value) < i)
        yield mustBe(known.root, [...path, "values", i], "a value that is not listed before");
    yield* mustName(known, [...path, "usual"], item.usual, item.values, `one of the values of ${item.id}`);
    for (const [i, id] of (item.moves ?? []).entries()) {
      yield* movedTroubles(known, [...path, "moves", i], id, item.values.length);
      const other = movedBy.get(id);
      if (other !== undefined)
        yield mustBe(known.root, [...path, "moves", i], `a switch that nothing else moves; ${other} moves this one`);
      movedBy.set(id, item.id);
    }
  }
}

function* movedTroubles(
  known: Known,
  path: readonly (string | number)[],
  id: string,
  values: number,
): Generator<Trouble> {
  const part = known.parts.get(id);
  if (known.parts.has(id) && part === undefined) return;
  if (part === undefined || !isSwitch(part.text)) {
    const switches = [...known.parts].filter(([, p]) => p !== undefined && isSwitch(p.text)).map(([name]) => name);
    yield* mustName(known, path, id, switches, "a switch of this loom");
    return;
  }
  const positions = known.inputs.get(id);
  if (positions !== undefined && positions.length !== values)
    yield mustBe(
      known.root,
      path,
      `a switch with ${values} positions, one for each value; ${id} has ${positions.length}`,
    );
}
