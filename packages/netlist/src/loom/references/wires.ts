import type { Trouble } from "../problem.ts";
import type { FoundItems } from "../shape.ts";
import { readTerminal, terminalText } from "../terminal-ref.ts";
import { mustBe } from "../words.ts";
import { type Known, mustBeTerminal } from "./known.ts";

/** Wires whose ends are nowhere, or both in one place. */
export function* wireTroubles(known: Known, { wires }: FoundItems): Generator<Trouble> {
  for (const { at, item } of wires) {
    if (item === undefined) continue;
    const bad = [
      ...mustBeTerminal(known, ["wires", at, "from"], item.from),
      ...mustBeTerminal(known, ["wires", at, "to"], item.to),
    ];
    yield* bad;
    if (bad.length === 0 && terminalText(readTerminal(item.from)) === terminalText(readTerminal(item.to)))
      yield mustBe(known.root, ["wires", at, "to"], "another terminal than the one at its other end");
  }
}
