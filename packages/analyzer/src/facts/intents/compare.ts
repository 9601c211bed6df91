import type { Intention, Wanted } from "../../circuit/circuit.ts";
import { doerOf } from "../doing.ts";
import type { Facts } from "../facts.ts";
import { judgeBelow, judgeOnWhen } from "./at-rest.ts";
import { type Compared, Judging } from "./breach.ts";
import { judgeNeverWith } from "./never-with.ts";
import { judgeOffWithin } from "./off-within.ts";
import { judgeOnlyWhen } from "./only-when.ts";

const cache = new WeakMap<Facts, readonly Compared[]>();

/** Every intent of the owner against everything that the loom can do. Cost: a walk over all found states a wish. */
export function comparedIn(facts: Facts): readonly Compared[] {
  let list = cache.get(facts);
  if (list === undefined) {
    list = facts.circuit.intents.map((intent) => compared(facts, intent));
    cache.set(facts, list);
  }
  return list;
}

function compared(facts: Facts, intent: Intention): Compared {
  const all = intent.wishes.map((w) => judged(facts, w));
  return {
    intent,
    breaches: all.flatMap((j) => j.breaches),
    missing: [...new Set([...intent.lacks, ...all.flatMap((j) => j.missing)])],
  };
}

function judged(facts: Facts, wish: Wanted): Pick<Compared, "breaches" | "missing"> {
  const judging = new Judging(wish);
  judge(facts, wish, judging);
  return judging.done(facts);
}

function judge(facts: Facts, wish: Wanted, judging: Judging): void {
  if (wish.kind === "below") {
    judgeBelow(facts, wish, judging);
    return;
  }
  const doer = doerOf(facts.circuit, wish.part);
  if (doer === undefined) return;
  switch (wish.kind) {
    case "on only when":
      judgeOnlyWhen(facts, wish, doer, judging);
      return;
    case "on when":
      judgeOnWhen(facts, wish, doer, judging);
      return;
    case "off within":
      judgeOffWithin(facts, wish, doer, judging);
      return;
    case "never with":
      judgeNeverWith(facts, wish, doer, judging);
      return;
    default:
      wish satisfies never;
  }
}
