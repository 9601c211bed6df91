import { analyse } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { specimenOf } from "./specimen.ts";

/** What a vehicle between the corners shows that no run at the corners does. */
export interface News {
  readonly seed: number;
  readonly findings: readonly string[];
  /** Those that only come along with a finding that is known, and go when that is cured. */
  readonly alongWithKnown: readonly string[];
}

/** Seeds from `first` on, one vehicle each. Findings by id: strength and severity may well differ. */
export function newsOf(loom: Loom, first: number, samples: number): readonly News[] {
  const known = new Set(analyse(loom).findings.map((f) => f.id));
  return Array.from({ length: samples }, (_, i) => first + i).flatMap((seed) => {
    const fresh = analyse(specimenOf(loom, seed)).findings.filter((f) => !known.has(f.id));
    if (fresh.length === 0) return [];
    const comesAlong = (f: (typeof fresh)[number]) => f.under !== undefined && known.has(f.under);
    return [
      {
        seed,
        findings: fresh.filter((f) => !comesAlong(f)).map((f) => f.id),
        alongWithKnown: fresh.filter(comesAlong).map((f) => f.id),
      },
    ];
  });
}
