import { type Loom, parse, write } from "@loomproof/netlist";

/** Every clamp of every module as if nobody knew it. */
export function withUnknownClamps(loom: Loom): Loom {
  const definitions = loom.definitions.map((d) => ({
    ...d,
    pins: d.pins.map((p) => ("clamp" in p && p.clamp !== undefined ? { ...p, clamp: "unknown" } : p)),
  }));
  const read = parse(write({ ...loom, definitions } as Loom));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.loom;
}
