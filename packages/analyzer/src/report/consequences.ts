import type { Facts } from "../facts/facts.ts";
import { type Cut, type Cuts, seriesOf } from "./cuts.ts";
import { type Group, seenBy } from "./groups.ts";

/**
 * A later finding folds under an earlier one if it is absent when the earlier one is cured by one of its gentlest cuts
 * (the harmless ones; else those that stop the fewest loads), or under what explains it. One whose only ground is an unknown pin folds under the
 * gravest of that pin: told once per unknown, not per place.
 */
export function consequencesOf(
  facts: Facts,
  groups: readonly Group[],
  cuts: ReadonlyMap<string, Cuts>,
): ReadonlyMap<string, string> {
  const under = new Map<string, string>();
  groups.forEach((first, i) => {
    const { run } = first.told;
    const found = cuts.get(first.id);
    if (found === undefined || run === undefined || under.has(first.id)) return;
    const later = groups.slice(i + 1).filter((g) => g.told.run !== undefined && !under.has(g.id));
    // A rule that had nothing to say of the loom as it is need not be asked again.
    const asked = new Set(later.map((g) => g.rule));
    for (const cut of distinct(facts, gentlest(found))) {
      const opened = facts.withOpen(cut.elements, new Set([run.run.id]));
      const left = new Set([...asked].flatMap((rule) => [...seenBy(opened, rule).keys()]));
      for (const g of later) if (!left.has(g.id)) under.set(g.id, first.id);
    }
  });
  for (const g of groups) {
    const cause = g.told.explainedBy;
    if (cause === undefined || under.has(g.id) || !groups.some((o) => o.id === cause)) continue;
    if (g.sightings.every((s) => s.explainedBy === cause)) under.set(g.id, under.get(cause) ?? cause);
  }
  for (const g of groups) {
    if (g.unknown === undefined || under.has(g.id)) continue;
    const first = groups.find((o) => o.unknown === g.unknown && !under.has(o.id));
    if (first !== undefined && first !== g) under.set(g.id, first.id);
  }
  return under;
}

/** One of those that are in series. */
function distinct({ circuit }: Facts, cuts: readonly Cut[]): readonly Cut[] {
  const keys = cuts.map((c) => seriesOf(circuit, c.elements));
  return cuts.filter((_, k) => keys.indexOf(keys[k] as string) === k);
}

function gentlest({ harmless, breaking }: Cuts): readonly Cut[] {
  const all = harmless.length > 0 ? harmless : breaking;
  const least = all[0];
  return least === undefined
    ? []
    : all.filter((c) => c.stops.length === least.stops.length && c.wires.length === least.wires.length);
}
