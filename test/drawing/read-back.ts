import type { Scene } from "@loomproof/drawing";
import { nets, type ResolvedLoom } from "@loomproof/netlist";

interface Spot {
  readonly x: number;
  readonly y: number;
}
const placeOf = ({ x, y }: Spot): string => `${Math.round(x * 2)},${Math.round(y * 2)}`;

/**
 * What a reader of the sheet would say is joined: wires that end at a terminal, that meet under a dot, that stand on a
 * bar with a dot, or that end in a ground mark. Wires that cross without a dot are not joined. Nothing but the geometry
 * of the scene and its ids is used.
 */
export function readBack(scene: Scene): readonly (readonly string[])[] {
  const joined = new Joined();
  const grounds = new Map(
    scene.texts.filter((t) => t.role === "ground").map((t) => [t.id.replace(/ (name|ground)$/, ""), t.text]),
  );
  // A wire that is drawn in pieces is one wire only if each piece ends in a flag.
  const nameOf = (wire: Scene["wires"][number], i: number) => `wire:${wire.id}#${i}`;
  scene.wires.forEach((wire, i) => {
    const ends = [wire.points[0], wire.points.at(-1)].filter((p) => p !== undefined);
    const own = nameOf(wire, i);
    for (const end of ends) joined.join(own, `at:${placeOf(end)}`);
    const ground = grounds.get(wire.id) ?? groundAt(scene, grounds, ends);
    if (ground !== undefined) joined.join(own, `ground:${ground}`);
    if (flagAt(scene, wire.id, ends)) joined.join(own, `flag:${wire.id}`);
  });
  for (const dot of scene.dots) {
    const here = `at:${placeOf(dot.at)}`;
    if (dot.kind === "terminal") joined.join(`terminal:${dot.id}`, here);
    else
      scene.wires.forEach((wire, i) => {
        if (wire.points.slice(1).some((b, k) => lies(dot.at, wire.points[k] ?? b, b)))
          joined.join(nameOf(wire, i), here);
      });
  }
  for (const bar of scene.bars) {
    joined.join(`bar:${bar.id}`);
    for (const dot of scene.dots)
      if (dot.kind === "joint" && Math.abs(dot.at.y - bar.y) < 0.5 && dot.at.x >= bar.x0 && dot.at.x <= bar.x1)
        joined.join(`bar:${bar.id}`, `at:${placeOf(dot.at)}`);
  }
  return joined
    .groups((name) => !name.startsWith("at:") && !name.startsWith("flag:"))
    .map((g) => [...new Set(g.map((name) => name.replace(/#\d+$/, "")))].sort());
}

/** Whether one of the ends touches the flag of a wire, and the number of that wire stands near it. */
function flagAt(scene: Scene, wire: string, ends: readonly Spot[]): boolean {
  const touches = ({ room }: Scene["symbols"][number]) =>
    ends.some(
      (p) => p.x > room.x0 && p.x < room.x1 && (Math.abs(p.y - room.y0) < 0.5 || Math.abs(p.y - room.y1) < 0.5),
    );
  return scene.symbols.some((s) => s.id.startsWith(`${wire}~`) && s.id.endsWith(" tag") && touches(s));
}

/** The ground mark whose top one of the ends touches. */
function groundAt(scene: Scene, grounds: ReadonlyMap<string, string>, ends: readonly Spot[]): string | undefined {
  const mark = scene.symbols.find(
    (s) =>
      s.id.includes("@") &&
      ends.some((p) => Math.abs((s.room.x0 + s.room.x1) / 2 - p.x) < 0.5 && Math.abs(s.room.y0 - p.y) < 0.5),
  );
  return mark === undefined ? undefined : grounds.get(mark.id);
}

const between = (v: number, a: number, b: number): boolean => v >= Math.min(a, b) - 0.5 && v <= Math.max(a, b) + 0.5;
const lies = (p: Spot, a: Spot, b: Spot): boolean => between(p.x, a.x, b.x) && between(p.y, a.y, b.y);

class Joined {
  readonly #group = new Map<string, Set<string>>();

  join(...names: readonly string[]): void {
    const all = new Set(names.flatMap((n) => [...(this.#group.get(n) ?? [n])]));
    for (const n of all) this.#group.set(n, all);
  }

  groups(wanted: (name: string) => boolean): readonly (readonly string[])[] {
    return [...new Set(this.#group.values())].map((g) => [...g].filter(wanted).sort()).filter((g) => g.length > 0);
  }
}

export const bySet = (groups: readonly (readonly string[])[]) => groups.map((g) => g.join(" ")).sort();

export const hasWire = (group: readonly string[]): boolean => group.some((n) => n.startsWith("wire:"));

/** What is joined in the loom, in the names of the sheet. */
export function joinedIn(loom: ResolvedLoom, sheet: Scene): readonly (readonly string[])[] {
  const bars = new Set(sheet.bars.map((b) => b.id));
  const grounds = new Set(loom.parts.filter((p) => p.family === "ground-point").map((p) => p.id));
  const name = (terminal: string): string => {
    const part = terminal.slice(0, terminal.indexOf("."));
    if (bars.has(part)) return `bar:${part}`;
    return grounds.has(part) ? `ground:${part}` : `terminal:${terminal}`;
  };
  return nets(loom)
    .map((n) => [...new Set([...n.terminals.map(name), ...n.wires.map((w) => `wire:${w}`)])].sort())
    .filter(hasWire);
}
