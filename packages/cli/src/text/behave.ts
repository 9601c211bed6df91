import type { Behaviour, BehaviourRow } from "@loomproof/analyzer";
import Table from "cli-table3";

const LOAD = { on: "on", partly: "partly", off: "" } as const;
const RELAY = { on: "in", partly: "held", off: "" } as const;

/** The behaviour table: one row a load, relay and module, one numbered column a situation. */
export function behaviourText({ situations, rows, more }: Behaviour): string {
  const table = new Table({ head: ["", ...situations.map((_, i) => String(i + 1))], style: { head: [], border: [] } });
  for (const row of rows) table.push([row.label, ...cells(row)]);
  const lines = situations.map((s, i) => `${String(i + 1).padStart(3)}  ${s.title}`);
  if (more > 0) lines.push(`     ${more} more situations (--all shows them)`);
  return `${lines.join("\n")}\n\n${table.toString()}`;
}

const cells = (row: BehaviourRow): readonly string[] => row.cells.map((c) => (row.kind === "relay" ? RELAY : LOAD)[c]);
