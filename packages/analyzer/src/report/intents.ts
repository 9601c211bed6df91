import type { Facts } from "../facts/facts.ts";
import { comparedIn } from "../facts/intents/compare.ts";
import { wishWords } from "../facts/intents/words.ts";
import { intentSightings } from "../rules/intent.ts";
import type { CouldNotCheck, IntentSeen } from "./report.ts";
import { strengthOf } from "./strength.ts";

/** Every intent with what came of comparing it. */
export const intentsSeen = (facts: Facts): readonly IntentSeen[] =>
  comparedIn(facts).map((compared): IntentSeen => {
    const { intent, breaches, missing } = compared;
    const about = { id: intent.id, says: intent.wishes.map((w) => wishWords(facts.circuit, w)) };
    if (breaches.length > 0)
      return {
        ...about,
        verdict: "not met",
        strength: strengthOf(facts, intentSightings(compared)),
        finding: `intent:${intent.id}`,
      };
    if (missing.length > 0) return { ...about, verdict: "could not check", missing };
    return { ...about, verdict: "met" };
  });

/** Intents that could not be compared, each with what would have to be known. */
export const uncheckedIn = (intents: readonly IntentSeen[]): readonly CouldNotCheck[] =>
  intents.flatMap(({ id, missing = [] }) => missing.map((value) => ({ at: `intent ${id}`, value, rules: ["intent"] })));
