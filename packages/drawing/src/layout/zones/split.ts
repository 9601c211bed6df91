import { moduleHeight, pinPitch, titleRoom } from "../../symbols/module.ts";
import { textWidth } from "../../texts/width.ts";
import { type Box, type Graph, type GraphPin, type Link, PLAIN } from "../graph.ts";
import type { Zoning } from "./assign.ts";

// One graph a zone. What serves several zones is shown in each: a box as a slice with the pins used there, a joint as a
// bar of the same name. A wire from zone to zone ends in a flag at either side that names its other end.

const TAG_PX = 10.5;
const TAG_HEIGHT = 2;
const SIDE_ROOM = 0.6;

type End = Link["a"];

export function split(graph: Graph, { of, names }: Zoning): readonly Graph[] {
  const own = (box: string): number | undefined => of.get(box);
  const homes = homesOf(graph, own);
  const home = ({ box }: End) => homes.get(box);
  const isBar = ({ box }: End) => graph.boxes.get(box)?.kind === "bar";
  /** Of two ends without a zone of their own, the joint decides. */
  const zoneOf = (end: End, far: End): number =>
    own(end.box) ?? own(far.box) ?? (isBar(far) && !isBar(end) ? home(far) : home(end)) ?? home(far) ?? 0;
  const zones = names.map(() => ({
    boxes: new Map<string, Box>(),
    links: [] as Link[],
    pins: new Map<string, Set<string>>(),
  }));
  const put = (z: number, end: End): End => {
    const zone = zones[z];
    const box = graph.boxes.get(end.box);
    if (zone === undefined || box === undefined) return end;
    if (own(box.id) === z || box.kind === "ground") {
      zone.boxes.set(box.id, box);
      return end;
    }
    const id = `${box.id}~${z + 1}`;
    const pins = zone.pins.get(box.id) ?? new Set();
    zone.pins.set(box.id, pins.add(end.terminal));
    if (box.kind === "bar") zone.boxes.set(id, { ...box, id });
    return { box: id, terminal: end.terminal };
  };
  for (const [id, box] of graph.boxes) {
    const z = own(id);
    if (z !== undefined) zones[z]?.boxes.set(id, box);
    else if (box.kind !== "ground") {
      // Pins that only hang on ground, and what nothing is wired to, stand at home.
      const at = homes.get(id) ?? 0;
      for (const pin of box.pins) if (pin.tail !== undefined) put(at, { box: id, terminal: pin.terminal });
      if (box.pins.every((p) => p.tail === undefined)) put(at, { box: id, terminal: "" });
    }
  }
  for (const link of graph.links) {
    const [za, zb] = [zoneOf(link.a, link.b), zoneOf(link.b, link.a)];
    if (za === zb) {
      zones[za]?.links.push({ ...link, a: put(za, link.a), b: put(za, link.b) });
      continue;
    }
    for (const [z, near, far, there] of [
      [za, link.a, link.b, zb],
      [zb, link.b, link.a, za],
    ] as const) {
      const end = put(z, near);
      const id = `${link.id}~${z + 1}`;
      const tag = tagOf(`${id} tag`, link.id, graph, near, far, there);
      zones[z]?.boxes.set(tag.id, tag);
      zones[z]?.links.push({ id, wire: link.wire, a: end, b: { box: tag.id, terminal: "1" } });
    }
  }
  return zones.map(({ boxes, links, pins }, z) => {
    for (const [id, used] of pins) {
      const box = graph.boxes.get(id);
      if (box !== undefined && box.kind === "part") boxes.set(`${id}~${z + 1}`, sliceOf(box, `${id}~${z + 1}`, used));
    }
    return { boxes, links };
  });
}

/** Where what has no zone of its own is most wired to. */
function homesOf(graph: Graph, own: (box: string) => number | undefined): ReadonlyMap<string, number> {
  const votes = new Map<string, Map<number, number>>();
  for (const { a, b } of graph.links)
    for (const [p, q] of [
      [a, b],
      [b, a],
    ] as const) {
      const z = own(q.box);
      if (own(p.box) !== undefined || z === undefined) continue;
      const mine = votes.get(p.box) ?? new Map<number, number>();
      votes.set(p.box, mine.set(z, (mine.get(z) ?? 0) + 1));
    }
  return new Map(
    [...votes].map(([id, mine]) => [id, [...mine].sort((p, q) => q[1] - p[1] || p[0] - q[0])[0]?.[0] ?? 0]),
  );
}

function sliceOf(box: Box, id: string, used: ReadonlySet<string>): Box {
  const pins = box.pins.filter((p) => used.has(p.terminal));
  const pitch = pinPitch(pins.map((p) => p.terminal));
  const row = (side: GraphPin["side"]) =>
    pins.filter((p) => p.side === side).map((p, i): GraphPin => ({ ...p, x: (i + 1) * pitch }));
  const [top, bottom] = [row("top"), row("bottom")];
  const w = Math.max(12, Math.ceil(titleRoom(box.title, box.name)), (Math.max(top.length, bottom.length) + 1) * pitch);
  const hasTail = pins.some((p) => p.tail !== undefined);
  const { part } = box;
  const nameOf = ({ terminal }: GraphPin) =>
    part?.family === "module" ? (part.definition.pins.find((p) => p.pin === terminal)?.name ?? "") : "";
  const h = moduleHeight(top.map(nameOf), bottom.map(nameOf));
  return { ...box, id, h, pins: [...top, ...bottom], w, bottom: hasTail ? box.bottom : 0 };
}

/** A flag at the end of a wire that goes on in another zone. */
function tagOf(id: string, wire: string, graph: Graph, near: End, far: End, zone: number): Box {
  const words = `${far.terminal === "" ? far.box : `${far.box}.${far.terminal}`} in ${zone + 1}`;
  const w = Math.ceil(textWidth(words, TAG_PX) + SIDE_ROOM);
  const sideOf = (e: End) => graph.boxes.get(e.box)?.pins.find((p) => p.terminal === e.terminal)?.side;
  // Below what faces down and above what faces up; a joint looks the other way than what it is wired to.
  const isBelow = (sideOf(near) ?? (sideOf(far) === "bottom" ? "top" : "bottom")) === "bottom";
  return {
    id,
    kind: "tag",
    part: undefined,
    ...PLAIN,
    title: words,
    name: wire,
    pins: [{ terminal: "1", x: w >> 1, side: isBelow ? "top" : "bottom", named: false, tail: undefined, wired: true }],
    w,
    h: TAG_HEIGHT,
    left: 0,
    right: 0,
    bottom: 0,
    mirrored: false,
  };
}
