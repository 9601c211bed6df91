import { quantityValue } from "../units/quantity.ts";
import { naturalOrder } from "./natural-order.ts";
import type { IntentText } from "./schema.ts";

/** Where inputs stand: each one that is named, at any of these values. */
export type SituationText = Readonly<Record<string, readonly string[]>>;

/** One thing that an intent asks for, in SI. */
export type Wish =
  /** Off in every other situation, once all has come to rest. */
  | { readonly kind: "on only when"; readonly part: string; readonly when: readonly SituationText[] }
  /** On in these situations, with everything that they do not name as usual. */
  | { readonly kind: "on when"; readonly part: string; readonly when: readonly SituationText[] }
  /** Off so soon after the situation begins; undefined: after the key is off. */
  | {
      readonly kind: "off within";
      readonly part: string;
      readonly seconds: number;
      readonly after: SituationText | undefined;
    }
  /** The battery gives less at rest in these situations; none: with everything as usual. */
  | {
      readonly kind: "below";
      readonly battery: string;
      readonly amps: number;
      readonly when: readonly SituationText[];
    }
  | { readonly kind: "never with"; readonly part: string; readonly others: readonly string[] };

/** What the owner wants under one id: all of its wishes, and what it leaves out to be one. */
export interface Intent {
  readonly id: string;
  readonly wishes: readonly Wish[];
  /** What is missing in the file, in words. */
  readonly lacks: readonly string[];
}

/** Intents of the file in natural order of their ids. */
export const readIntents = (intents: readonly IntentText[]): readonly Intent[] =>
  intents.map(readIntent).sort((a, b) => naturalOrder(a.id, b.id));

function readIntent(raw: IntentText): Intent {
  const { load, battery } = raw;
  const wishes: Wish[] = [];
  const lacks: string[] = [];
  const aboutLoad = [raw.onOnlyWhen, raw.onWhen, raw.offWithin, raw.neverWith].some((v) => v !== undefined);
  if (load === undefined && aboutLoad) lacks.push("which load it is about (load)");
  if (load !== undefined) {
    if (raw.onOnlyWhen !== undefined)
      wishes.push({ kind: "on only when", part: load, when: raw.onOnlyWhen.map(situation) });
    if (raw.onWhen !== undefined) wishes.push({ kind: "on when", part: load, when: raw.onWhen.map(situation) });
    if (raw.offWithin !== undefined)
      wishes.push({
        kind: "off within",
        part: load,
        seconds: quantityValue(raw.offWithin, "seconds"),
        after: raw.after && situation(raw.after),
      });
    if (raw.neverWith !== undefined) wishes.push({ kind: "never with", part: load, others: raw.neverWith });
    if (!aboutLoad) lacks.push(`what ${load} is to do (onOnlyWhen, onWhen, offWithin or neverWith)`);
  }
  if (raw.after !== undefined && raw.offWithin === undefined) lacks.push("how soon it must be off (offWithin)");
  if (battery !== undefined && raw.below === undefined) lacks.push("how much the battery may give (below)");
  if (raw.below !== undefined && battery === undefined) lacks.push("which battery is meant (battery)");
  if (raw.when !== undefined && raw.below === undefined)
    lacks.push('what is to be so then ("when" belongs to "below"; of a load say onOnlyWhen or onWhen)');
  if (battery !== undefined && raw.below !== undefined)
    wishes.push({
      kind: "below",
      battery,
      amps: quantityValue(raw.below, "amps"),
      when: (raw.when ?? [{}]).map(situation),
    });
  if (wishes.length === 0 && lacks.length === 0) lacks.push("what it is about (load or battery)");
  return { id: raw.id, wishes, lacks };
}

/** A situation of the file, with a list of values for each input. */
export const situation = (raw: Readonly<Record<string, string | readonly string[]>>): SituationText =>
  Object.fromEntries(Object.entries(raw).map(([input, value]) => [input, typeof value === "string" ? [value] : value]));
