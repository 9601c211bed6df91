import { pinX } from "../layout/columns.ts";
import { shownAs } from "../layout/graph.ts";
import type { Placed } from "../layout/layout.ts";
import type { DotItem, Marks, Spot, WireItem } from "./items.ts";

/** Width of a wire in px by its cross-section in mm². */
export function wireWidth(areaMm2: number | undefined): number {
  const a = areaMm2 ?? 1;
  if (a <= 0.75) return 3;
  if (a <= 1.5) return 4;
  if (a <= 4) return 5;
  if (a <= 10) return 6.5;
  return a <= 25 ? 8.5 : 11;
}

/** The terminal that a lead belongs to, whichever slice of its part it is on. */
export const shownTerminal = (lead: string): string => {
  const dot = lead.indexOf(".");
  return shownAs(lead.slice(0, dot)) + lead.slice(dot);
};

const NO_COLOUR = "GY";

/** Wires from terminal to terminal, with their joints. */
export function wiresOf(
  placed: Placed,
  shift: (x: number, y: number) => Spot,
  marks: Marks,
  isDim: (id: string) => boolean,
): { readonly wires: readonly WireItem[]; readonly dots: readonly DotItem[] } {
  const leads = new Map(placed.routed.leads.map((l) => [l.terminal, l]));
  const look = (id: string, areaMm2: number | undefined, colour: string | undefined) => {
    const [base = NO_COLOUR, tracer] = (colour ?? NO_COLOUR).split("/");
    return { id, width: wireWidth(areaMm2), base, tracer, sleeve: marks.states?.[id], dim: isDim(id), hops: [] };
  };
  const owners = leadOwners(placed, isDim);
  const wires: WireItem[] = placed.graph.links.map(({ id, wire, a, b }) => {
    const path = placed.routed.wires.get(id) ?? [];
    const [from, to] = [a, b].map((e) => `${e.box}.${e.terminal}`);
    // Of several wires on one terminal only one is drawn on the lead to their joint.
    const own = (key = "") => (owners.get(key) === id ? leads.get(key)?.from : undefined);
    const points = [own(from), ...path, own(to)].filter((p) => p !== undefined);
    return { ...look(wire.id, wire.areaMm2, wire.colour), points: straightened(points).map((p) => shift(p.x, p.y)) };
  });
  const byId = new Map(placed.loomWires.map((w) => [w.id, w]));
  for (const { box, x, y } of placed.frame.boxes.values())
    for (const pin of box.pins) {
      const wire = byId.get(pin.tail?.wire ?? "");
      if (wire === undefined) continue;
      const at = pinX(box, x, pin.terminal);
      wires.push({
        ...look(wire.id, wire.areaMm2, wire.colour),
        points: [shift(at, y + box.h), shift(at, y + box.h + (pin.tail?.length ?? 0))],
      });
    }
  const dots: DotItem[] = [
    ...placed.routed.leads.flatMap((l) =>
      l.dots.map((p) => ({
        id: shownTerminal(l.terminal),
        at: shift(p.x, p.y),
        kind: "joint" as const,
        dim: isDim(shownAs(l.terminal.split(".")[0] ?? "")),
      })),
    ),
    ...[...placed.frame.bars.values()].flatMap((bar) =>
      // A wire from above and one from below may share a dot.
      [...new Set(bar.dots.values())].map((x) => {
        const wires = [...bar.dots].filter(([, at]) => at === x).map(([wire]) => shownAs(wire));
        return {
          id: `${shownAs(bar.id)} ${wires.join(" ")}`,
          at: shift(x, bar.y),
          kind: "joint" as const,
          dim: wires.every(isDim),
        };
      }),
    ),
  ];
  const bars = [...placed.frame.bars.values()].map((bar): Rail => {
    const at = shift(bar.x0, bar.y);
    return { x0: at.x, x1: shift(bar.x1, bar.y).x, y: at.y, dim: isDim(shownAs(bar.id)) };
  });
  return { wires: withHops(wires, bars), dots };
}

/** The wire that is drawn on each lead: of those that begin at its far end a lit one, else the widest. */
function leadOwners({ graph, routed }: Placed, isDim: (id: string) => boolean): ReadonlyMap<string, string> {
  const farEnds = new Map(routed.leads.map((l) => [l.terminal, l.to]));
  const owners = new Map<string, { readonly id: string; readonly rank: number }>();
  for (const { id, wire, a, b } of graph.links) {
    const path = routed.wires.get(id) ?? [];
    for (const [end, at] of [
      [a, path[0]],
      [b, path.at(-1)],
    ] as const) {
      const key = `${end.box}.${end.terminal}`;
      const far = farEnds.get(key);
      if (at === undefined || far === undefined || at.x !== far.x || at.y !== far.y) continue;
      const rank = wireWidth(wire.areaMm2) + (isDim(wire.id) ? 0 : 100);
      if (rank > (owners.get(key)?.rank ?? 0)) owners.set(key, { id, rank });
    }
  }
  return new Map([...owners].map(([key, { id }]) => [key, id]));
}

/** Without points that lie on the line between their neighbours. */
function straightened<P extends Spot>(points: readonly P[]): readonly P[] {
  return points.filter((p, i) => {
    const [a, b] = [points[i - 1], points[i + 1]];
    if (a !== undefined && a.x === p.x && a.y === p.y) return false;
    return a === undefined || b === undefined || !((a.x === p.x && p.x === b.x) || (a.y === p.y && p.y === b.y));
  });
}

interface Segment {
  readonly wire: number;
  readonly index: number;
  readonly a: Spot;
  readonly b: Spot;
  readonly flat: boolean;
}

interface Rail {
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
  readonly dim: boolean;
}
const RAIL_WIDTH = 3;

/**
 * Who jumps where two wires cross: the thinner; of equals, the one that runs level. A lit wire covers a dimmed one. A
 * bar is jumped by every wire that passes it without a dot.
 */
function withHops(wires: readonly WireItem[], rails: readonly Rail[]): readonly WireItem[] {
  const segments = wires.flatMap((w, wire) =>
    w.points.slice(1).map((b, index): Segment => {
      const a = w.points[index] as Spot;
      return { wire, index, a, b, flat: a.y === b.y };
    }),
  );
  const hops = wires.map((): { segment: number; at: Spot; over: number }[] => []);
  for (const flat of segments.filter((s) => s.flat))
    for (const tall of segments.filter((s) => !s.flat)) {
      if (flat.wire === tall.wire) continue;
      const at = { x: tall.a.x, y: flat.a.y };
      if (!between(at.x, flat.a.x, flat.b.x) || !between(at.y, tall.a.y, tall.b.y)) continue;
      const [f, t] = [wires[flat.wire] as WireItem, wires[tall.wire] as WireItem];
      if (f.dim !== t.dim) continue;
      const [hopper, lower] = t.width < f.width ? [tall, f] : [flat, t];
      hops[hopper.wire]?.push({ segment: hopper.index, at, over: lower.width });
    }
  for (const { wire, index, a, b, flat } of segments)
    for (const rail of flat ? [] : rails) {
      if (!between(rail.y, a.y, b.y) || !between(a.x, rail.x0, rail.x1)) continue;
      if (rail.dim || wires[wire]?.dim === false)
        hops[wire]?.push({ segment: index, at: { x: a.x, y: rail.y }, over: RAIL_WIDTH });
    }
  return wires.map((w, i) => ({ ...w, hops: hops[i] ?? [] }));
}

const between = (v: number, a: number, b: number): boolean => v > Math.min(a, b) && v < Math.max(a, b);
