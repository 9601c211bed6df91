import type { Spot, WireItem } from "../scene/items.ts";

const n = (v: number): string => String(Math.round(v * 100) / 100);
const CORNER = 6;

const toward = (from: Spot, to: Spot, by: number): Spot => {
  const d = Math.abs(to.x - from.x) + Math.abs(to.y - from.y) || 1;
  return { x: from.x + ((to.x - from.x) * by) / d, y: from.y + ((to.y - from.y) * by) / d };
};

const reach = (a: Spot, b: Spot): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y);

/** The run of a wire with rounded corners and its hops, as SVG path text. */
export function wirePath(wire: WireItem): string {
  const { points } = wire;
  const [first] = points;
  if (first === undefined) return "";
  let d = `M${n(first.x)} ${n(first.y)}`;
  for (let i = 1; i < points.length; i++) {
    const [a, b, c] = [points[i - 1] as Spot, points[i] as Spot, points[i + 1]];
    d += hopsOn(wire, i - 1, a, b);
    if (c === undefined) {
      d += `L${n(b.x)} ${n(b.y)}`;
      continue;
    }
    const r = Math.min(CORNER, reach(a, b) / 2, reach(b, c) / 2);
    const [p, q] = [toward(b, a, r), toward(b, c, r)];
    d += `L${n(p.x)} ${n(p.y)}Q${n(b.x)} ${n(b.y)} ${n(q.x)} ${n(q.y)}`;
  }
  return d;
}

/** Radius of a hop: enough to clear the wire below. */
const hopRadius = (over: number): number => 5.5 + over / 2;

function hopsOn(wire: WireItem, segment: number, a: Spot, b: Spot): string {
  const own = wire.hops.filter((h) => h.segment === segment).toSorted((p, q) => reach(a, p.at) - reach(a, q.at));
  let d = "";
  for (const hop of own) {
    const r = hopRadius(hop.over);
    const [p, q] = [toward(hop.at, a, r), toward(hop.at, b, r)];
    // Level runs jump upwards, upright ones to the right.
    const sweep = a.y === b.y ? (a.x < b.x ? 1 : 0) : a.y < b.y ? 1 : 0;
    d += `L${n(p.x)} ${n(p.y)}A${n(r)} ${n(r)} 0 0 ${sweep} ${n(q.x)} ${n(q.y)}`;
  }
  return d;
}

/** Only the arc of a hop, for the gap under it. */
export function hopArc(at: Spot, over: number, flat: boolean): string {
  const r = hopRadius(over);
  return flat
    ? `M${n(at.x - r)} ${n(at.y)}A${n(r)} ${n(r)} 0 0 1 ${n(at.x + r)} ${n(at.y)}`
    : `M${n(at.x)} ${n(at.y - r)}A${n(r)} ${n(r)} 0 0 1 ${n(at.x)} ${n(at.y + r)}`;
}
