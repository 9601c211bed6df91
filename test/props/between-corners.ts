import { analyse } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { specimenOf } from "./specimen.ts";

/** What a vehicle between the corners shows that no run at the corners does. */
export interface News {
  readonly seed: number;
  readonly findings: readonly string[];
}

/** Seeds from `first` on, one vehicle each. Findings by id: strength and severity may well differ. */
export function newsOf(loom: Loom, first: number, samples: number): readonly News[] {
  const known = new Set(analyse(loom).findings.map((f) => f.id));
  return Array.from({ length: samples }, (_, i) => first + i).flatMap((seed) => {
    const findings = analyse(specimenOf(loom, seed))
      .findings.map((f) => f.id)
      .filter((id) => !known.has(id));
    return findings.length === 0 ? [] : [{ seed, findings }];
  });
}
