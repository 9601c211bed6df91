import { type SituationText, situation } from "./intents.ts";
import { naturalOrder } from "./natural-order.ts";
import type { Loom } from "./schema.ts";

/** What the owner says of a start and stop: a claim, until it is proved. */
export interface SealIn {
  readonly id: string;
  readonly relay: string;
  /** Terminals of the contact that holds it. */
  readonly through: readonly [string, string];
  /** Situations in which it may come in; undefined: the owner does not say. */
  readonly set: readonly SituationText[] | undefined;
  /** Moves of which each lets it go; undefined: the owner does not say. */
  readonly clear: readonly SituationText[] | undefined;
}

/** Claims of the file in natural order of their ids. */
export const readSealIns = (meant: Loom["meant"]): readonly SealIn[] =>
  meant
    .map((m) => ({
      id: m.id,
      relay: m["seal-in"],
      through: m.through,
      set: m.set?.map(situation),
      clear: m.clear?.map(situation),
    }))
    .sort((a, b) => naturalOrder(a.id, b.id));
