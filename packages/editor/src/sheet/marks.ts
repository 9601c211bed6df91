import type { Finding } from "@loomproof/analyzer";
import { type Marks, pathMarks, type Scene } from "@loomproof/drawing";
import type { ResolvedLoom } from "@loomproof/netlist";
import type { Area } from "./pan-zoom.ts";

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

/** All that is lit, and the part that the ring goes round; undefined if nothing is. */
export function litArea(scene: Scene): { readonly all: Area; readonly heart: Area } | undefined {
  const rooms = scene.symbols.filter((s) => !s.dim).map((s) => s.room);
  const points = scene.wires.filter((w) => !w.dim).flatMap((w) => w.points);
  const xs = [...rooms.flatMap((r) => [r.x0, r.x1]), ...points.map((p) => p.x)];
  const ys = [...rooms.flatMap((r) => [r.y0, r.y1]), ...points.map((p) => p.y)];
  if (xs.length === 0) return undefined;
  const all = { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
  const ring = scene.marks.find((m) => m.kind === "ring")?.at;
  return { all, heart: ring === undefined ? all : { x0: ring.x, x1: ring.x, y0: ring.y, y1: ring.y } };
}
