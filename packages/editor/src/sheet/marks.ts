import type { Finding } from "@loomproof/analyzer";
import { type Marks, pathMarks } from "@loomproof/drawing";
import type { ResolvedLoom } from "@loomproof/netlist";

/** What a finding lights on the drawing. */
export function marksOf(loom: ResolvedLoom, finding: Finding): Marks {
  return pathMarks(loom, {
    path: finding.path,
    volts: finding.volts,
    ring: finding.hold?.ring[0] ?? finding.where[0],
    inputs: finding.states[0]?.inputs ?? {},
    partsIn: finding.states[0]?.in ?? [],
    partsOn: finding.states[0]?.on ?? [],
  });
}
