import type { Finding } from "@loomproof/analyzer";
import { fieldOf, type Marks, pathMarks, type Scene, standingMarks } from "@loomproof/drawing";
import type { ResolvedLoom } from "@loomproof/netlist";
import type { Picked } from "../session/editing.ts";
import type { Situation } from "../tray/behaviour/situation.ts";
import type { Area } from "./camera.ts";

/** What a finding lights on the drawing. */
export function marksOf(loom: ResolvedLoom, finding: Finding): Marks {
  return pathMarks(loom, {
    path: finding.path.length > 0 ? finding.path : endsOf(loom, finding.where),
    volts: finding.volts,
    ring: finding.hold?.ring[0] ?? finding.where[0],
    inputs: finding.states[0]?.inputs ?? {},
    partsIn: finding.states[0]?.in ?? [],
    partsOn: finding.states[0]?.on ?? [],
    also: finding.where,
  });
}

/** The whole drawing as it stands in a situation of the behaviour table. */
export function situationMarks(loom: ResolvedLoom, { table, at, ring, volts }: Situation): Marks {
  const does = (...words: readonly unknown[]) => table.rows.filter((r) => words.includes(r.cells[at])).map((r) => r.id);
  return standingMarks(loom, {
    inputs: table.situations[at]?.inputs ?? {},
    partsIn: does("in", "held"),
    partsOn: does("on", "awake"),
    volts,
    ring,
  });
}

/** Both ends of each wire that is named, for a finding that has no path of current. */
function endsOf(loom: ResolvedLoom, where: readonly string[]): readonly string[] {
  return loom.wires
    .filter((w) => where.includes(w.id))
    .flatMap((w) => [`${w.from.part}.${w.from.terminal}`, `${w.to.part}.${w.to.terminal}`]);
}

/** All that is lit, and the part that the ring goes round; undefined if nothing is. */
export function litArea(scene: Scene): { readonly all: Area; readonly heart: Area } | undefined {
  const rooms = scene.symbols.filter((s) => !s.dim).map((s) => s.room);
  const all = around(
    rooms,
    scene.wires.filter((w) => !w.dim).flatMap((w) => w.points),
  );
  const ring = scene.marks.find((m) => m.kind === "ring")?.at;
  return all && { all, heart: ring === undefined ? all : { x0: ring.x, x1: ring.x, y0: ring.y, y1: ring.y } };
}

/** Where a part or a wire stands, a part that is drawn in several places at the first; undefined if it is not drawn. */
export function areaOf(scene: Scene, { kind, id }: Picked): Area | undefined {
  if (kind === "wire")
    return around(
      [],
      scene.wires.filter((w) => w.id === id).flatMap((w) => w.points),
    );
  const bar = scene.bars.find((b) => b.id === id);
  return scene.symbols.find((s) => s.part === id)?.room ?? (bar && { x0: bar.x0, x1: bar.x1, y0: bar.y, y1: bar.y });
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** What holds all of these; undefined if there are none. */
function around(rooms: readonly Area[], points: readonly Point[]): Area | undefined {
  const xs = [...rooms.flatMap((r) => [r.x0, r.x1]), ...points.map((p) => p.x)];
  const ys = [...rooms.flatMap((r) => [r.y0, r.y1]), ...points.map((p) => p.y)];
  if (xs.length === 0) return undefined;
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}

/** What is lit, in words. */
export function litWords(scene: Scene): string {
  const ids = (list: readonly { readonly id: string; readonly dim: boolean }[]) =>
    [...new Set(list.filter((i) => !i.dim).map((i) => i.id))].join(", ");
  const [wires, parts] = [ids(scene.wires), ids(scene.symbols.filter((s) => !/[ .@]/.test(s.id)))];
  return `Lit on the drawing: ${[parts, wires].filter((w) => w !== "").join("; wires ")}.`;
}

/** The field of the sheet where the first of these stands, such as B4. */
export function fieldOfFirst(scene: Scene, ids: readonly string[]): string | undefined {
  for (const id of ids) {
    const symbol = scene.symbols.find((s) => s.id === id);
    if (symbol !== undefined)
      return fieldOf(scene, { x: (symbol.room.x0 + symbol.room.x1) / 2, y: (symbol.room.y0 + symbol.room.y1) / 2 });
    const spot = scene.wires.find((w) => w.id === id)?.points[0] ?? scene.dots.find((d) => d.id === id)?.at;
    if (spot !== undefined) return fieldOf(scene, spot);
  }
  return undefined;
}
