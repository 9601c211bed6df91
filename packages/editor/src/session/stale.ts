import { change, type Loom } from "@loomproof/netlist";

/** Parts and wires that are not any more what a report was about: changed, new or gone. */
export function touchedSince(reported: Loom | undefined, loom: Loom): ReadonlySet<string> {
  if (reported === undefined || reported === loom) return new Set();
  const touched = new Set<string>();
  for (const key of Object.keys(change(reported, loom))) {
    const [list, id = ""] = key.split("/");
    if (list === "parts" || list === "wires") touched.add(id);
    if (list === "definitions") for (const p of loom.parts) if (p.of === id) touched.add(p.id);
    // What the world can do, and the volts of it all, touch everything.
    if (list === "system" || list === "world") for (const i of [...loom.parts, ...loom.wires]) touched.add(i.id);
  }
  return touched;
}

interface About {
  readonly where: readonly string[];
  readonly path: readonly string[];
}

/** Whether a finding is about anything that was touched. */
export const isTouched = ({ where, path }: About, touched: ReadonlySet<string>): boolean =>
  touched.size > 0 && [...where, ...path].some((at) => touched.has(at.split(".")[0] ?? at));
