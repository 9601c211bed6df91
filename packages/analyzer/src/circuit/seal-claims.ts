import type { ResolvedLoom, SealIn, SituationText } from "@loomproof/netlist";
import type { SealClaim, Situation } from "./circuit.ts";
import type { Draft } from "./draft.ts";
import { situationOf } from "./intents.ts";

/** What the owner means to hold itself in, in terms of contacts and inputs. */
export const sealClaimsOf = (loom: ResolvedLoom, draft: Draft): readonly SealClaim[] =>
  loom.sealIns.flatMap((sealIn) => {
    const latch = draft.latches.findIndex((l) => l.kind === "armature" && l.part === sealIn.relay);
    return latch < 0 ? [] : [claimOf(sealIn, latch, loom, draft)];
  });

function claimOf(
  { id, relay, through, set, clear }: SealIn,
  latch: number,
  loom: ResolvedLoom,
  draft: Draft,
): SealClaim {
  const lacks: string[] = [];
  const all = (list: readonly SituationText[] | undefined): readonly Situation[] | undefined =>
    list?.flatMap((text) => situationOf(text, loom, draft, (what) => void lacks.push(what)) ?? []);
  const ends = through.map((t) => `${relay}.${t}`);
  return {
    id,
    relay,
    latch,
    through: through.join(" and "),
    contacts: (draft.contactsOf.get(relay) ?? []).filter((i) => {
      const { owner } = draft.elements[i] ?? {};
      return owner !== undefined && ends.includes(owner.from) && ends.includes(owner.to);
    }),
    set: all(set),
    clear: all(clear),
    lacks,
  };
}
