import type { Circuit, Situation, Wanted } from "../../circuit/circuit.ts";
import { amps, list, named, seconds } from "../words.ts";

/** A part as a person calls it: "Lift pump M1". */
export function partWords(circuit: Circuit, part: string): string {
  const own = circuit.loads.find((l) => l.part === part) ?? circuit.works.find((w) => w.part === part);
  return named(part, own?.label ?? "");
}

const NB = "\u00a0";
const situations = (when: readonly Situation[]): string =>
  list(
    when.map((s) => (s.says === "" ? "everything as usual" : s.says)),
    "or",
  );

/** A wish without what it is about: "only with Key run or start". */
export function askedWords(circuit: Circuit, wish: Wanted): string {
  switch (wish.kind) {
    case "on only when":
      return wish.when.length === 0 ? "never on" : `only with ${situations(wish.when)}`;
    case "on when":
      return `on with ${situations(wish.when)}`;
    case "off within":
      return `off within ${seconds(wish.seconds)} after ${wish.after.says === "" ? "anything" : wish.after.says}`;
    case "below":
      return `under ${amps(wish.amps)} at rest${wish.when.every((s) => s.says === "") ? "" : ` with ${situations(wish.when)}`}`;
    case "never with":
      return `never together with ${list(
        wish.others.map((o) => partWords(circuit, o)),
        "or",
      )}`;
    default:
      return wish satisfies never;
  }
}

/** A wish in words: "Lift pump M1: only with Key run or start". */
export const wishWords = (circuit: Circuit, wish: Wanted): string =>
  `${wish.kind === "below" ? `Battery${NB}${wish.battery}` : partWords(circuit, wish.part)}: ${askedWords(circuit, wish)}`;
