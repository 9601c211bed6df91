import { END } from "../behave/state.ts";
import type { Facts, RunFacts } from "../facts/facts.ts";
import type { Sighting } from "../rules/rule.ts";

export type Strength = "certain" | "possible";

/** Threshold ends that the sightings of one finding were seen at, beyond which covering is not worked out. */
const MOST_ENDS = 12;

/**
 * Certain: in every usual run (each end of the draw, each way an unknown pin may be) it is seen whichever end of its
 * spread each relay is at, and times enforce it. End boxes: thresholds are tried at both ends, not between.
 */
export function strengthOf(facts: Facts, sightings: readonly Sighting[]): Strength {
  if (sightings.some((s) => s.run === undefined)) return "certain";
  const enforced = sightings.filter((s) => s.isPossible !== true);
  const usual = facts.runs.filter((r) => r.run.corner === "usual");
  return usual.every((run) => covers(run, enforced)) ? "certain" : "possible";
}

function covers(run: RunFacts, sightings: readonly Sighting[]): boolean {
  const boxes = sightings.flatMap((s) => (s.run === run && s.ends !== undefined ? [s.ends] : []));
  if (boxes.length === 0) return false;
  // One coordinate for each threshold that some history depended on.
  const axes = new Map<string, { readonly latch: number; readonly least: number; readonly most: number }>();
  for (const box of boxes)
    box.forEach((bits, latch) => {
      if (bits & (END.offLeast | END.offMost))
        axes.set(`${latch} off`, { latch, least: END.offLeast, most: END.offMost });
      if (bits & (END.onLeast | END.onMost)) axes.set(`${latch} on`, { latch, least: END.onLeast, most: END.onMost });
    });
  const list = [...axes.values()];
  if (list.length > MOST_ENDS) return false;
  for (let corner = 0; corner < 1 << list.length; corner++) {
    const allows = (box: Uint8Array) =>
      list.every(({ latch, least, most }, k) => {
        const wanted = (corner >> k) & 1 ? most : least;
        const bits = (box[latch] ?? 0) & (least | most);
        return bits === 0 || bits === wanted;
      });
    if (!boxes.some(allows)) return false;
  }
  return true;
}
