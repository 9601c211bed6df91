import { type Part, type ResolvedLoom, terminalText, type Wire } from "@loomproof/netlist";
import type { PartSymbol } from "../symbols/symbol.ts";
import { textWidth } from "../texts/width.ts";
import type { Potentials } from "./potentials.ts";
import { symbolsOf } from "./symbols-of.ts";

// The loom as what layout places: boxes with pins above and below, bars for splices, wires between. A wire to a ground
// point is a tail inside the box of the terminal it leaves from; only a terminal with several wires, or one that faces
// up, gets a ground mark of its own.

/** What joins a pin to a ground point: a wire, or the part's own case. */
export interface Tail {
  readonly wire: string | undefined;
  readonly ground: string;
  /** Units from the pin to the mark: the number of the wire stands along it. */
  readonly length: number;
}

export interface GraphPin {
  readonly terminal: string;
  /** Units from the left edge of the symbol. */
  x: number;
  readonly side: "top" | "bottom";
  readonly named: boolean;
  /** The wire to a ground point that hangs on this pin, drawn inside the box. */
  readonly tail: Tail | undefined;
  /** Whether any wire leaves from it. */
  readonly wired: boolean;
}

export interface Box {
  readonly id: string;
  readonly kind: "part" | "ground" | "bar" | "tag";
  readonly part: Part | undefined;
  /** How far ink reaches beyond the frame. */
  readonly ink: { readonly left: number; readonly right: number };
  readonly mirrors: boolean;
  readonly stretches: boolean;
  readonly title: string;
  readonly name: string;
  readonly pins: GraphPin[];
  /** Size of the symbol. */
  w: number;
  readonly h: number;
  /** Room around it for ink, label and tails. */
  readonly left: number;
  right: number;
  readonly bottom: number;
  mirrored: boolean;
}

export interface Link {
  /** The number of the wire; of a wire that two zones share, with the zone. */
  readonly id: string;
  readonly wire: Wire;
  /** Box and terminal of each end; for a bar the terminal is empty. */
  readonly a: { readonly box: string; readonly terminal: string };
  readonly b: { readonly box: string; readonly terminal: string };
}

/** What a box shows: its slices and copies in several zones bear the same designation. */
export const shownAs = (id: string): string => id.split("~")[0] ?? id;

export interface Graph {
  readonly boxes: ReadonlyMap<string, Box>;
  readonly links: readonly Link[];
}

/** The same graph with boxes and pins of its own, to be moved apart from the first. */
export const copyOf = ({ boxes, links }: Graph): Graph => ({
  boxes: new Map([...boxes].map(([id, box]) => [id, { ...box, pins: box.pins.map((p) => ({ ...p })) }])),
  links,
});

const LEAST_TAIL = 3;
const NUMBER_PX = 10.5;
/** Below a tail: the mark and the name. */
const MARK_DEPTH = 3.4;
const CASE = "case";

const tailOf = (wire: string | undefined, ground: string): Tail => ({
  wire,
  ground,
  length: Math.max(LEAST_TAIL, Math.ceil(textWidth(wire ?? CASE, NUMBER_PX, true) + 0.4)),
});

/** @param pinned the side of each pin that a drawing has already: it is shown there, even if nothing is wired to it */
export function graphOf(
  loom: ResolvedLoom,
  potentials: Potentials,
  pinned: ReadonlyMap<string, "top" | "bottom"> = new Map(),
): Graph {
  const parts = new Map(loom.parts.map((p) => [p.id, p]));
  const isGround = (id: string) => parts.get(id)?.family === "ground-point";
  const count = new Map<string, number>();
  for (const w of loom.wires)
    for (const end of [w.from, w.to]) count.set(terminalText(end), (count.get(terminalText(end)) ?? 0) + 1);
  const symbols = symbolsOf(loom, potentials);
  const sideOf = (part: string, terminal: string) =>
    pinned.get(`${part}.${terminal}`) ?? symbols.get(part)?.pins.find((p) => p.terminal === terminal)?.side;
  const tails = new Map<string, Tail>();
  for (const part of loom.parts) {
    const own = part.terminals.find((t) => t.needs === "wire or case");
    if (part.caseAt !== undefined && own !== undefined && !count.has(`${part.id}.${own.name}`))
      tails.set(`${part.id}.${own.name}`, tailOf(undefined, part.caseAt));
  }
  const joined = new Set([
    ...loom.wires.flatMap((w) => [w.from.part, w.to.part]),
    ...loom.parts.map((p) => p.caseAt ?? ""),
  ]);
  const boxes = new Map<string, Box>();
  const links: Link[] = [];
  const groundBox = (id: string, ground: string): Box => {
    const title = ground;
    const width = Math.max(4, textWidth(title, 10.5) + 0.4);
    return {
      id,
      kind: "ground",
      part: parts.get(ground),
      ...PLAIN,
      title,
      name: "",
      pins: [{ terminal: "1", x: Math.round(width / 2), side: "top", named: false, tail: undefined, wired: true }],
      w: Math.ceil(width),
      h: 3.6,
      left: 0,
      right: 0,
      bottom: 0,
      mirrored: false,
    };
  };
  for (const wire of loom.wires) {
    const [from, to] = [wire.from, wire.to];
    const ground = isGround(to.part) ? to.part : isGround(from.part) ? from.part : undefined;
    const other = isGround(to.part) ? from : to;
    if (ground === undefined || isGround(other.part)) {
      if (ground !== undefined) {
        // From one ground point to another: both ends get marks.
        const [x, y] = [from, to].map(({ part }) => groundBox(`${wire.id}@${part}`, part)) as [Box, Box];
        boxes.set(x.id, x).set(y.id, y);
        links.push({ id: wire.id, wire, a: { box: x.id, terminal: "1" }, b: { box: y.id, terminal: "1" } });
        continue;
      }
      const end = (e: typeof from) => ({
        box: e.part,
        terminal: parts.get(e.part)?.family === "splice" ? "" : e.terminal,
      });
      links.push({ id: wire.id, wire, a: end(from), b: end(to) });
      continue;
    }
    const terminal = terminalText(other);
    if (sideOf(other.part, other.terminal) === "bottom" && count.get(terminal) === 1)
      tails.set(terminal, tailOf(wire.id, ground));
    else {
      const box = groundBox(`${wire.id}@${ground}`, ground);
      boxes.set(box.id, box);
      links.push({
        id: wire.id,
        wire,
        a: { box: other.part, terminal: parts.get(other.part)?.family === "splice" ? "" : other.terminal },
        b: { box: box.id, terminal: "1" },
      });
    }
  }
  for (const part of loom.parts) {
    if (part.family === "ground-point") {
      // Each of its wires has a mark of its own; without any it stands by itself.
      if (!joined.has(part.id)) boxes.set(part.id, groundBox(part.id, part.id));
      continue;
    }
    const symbol = symbols.get(part.id);
    boxes.set(part.id, symbol === undefined ? barOf(part) : boxOf(part, symbol, tails, count, pinned));
  }
  return { boxes, links };
}

export const PLAIN = { ink: { left: 0, right: 0 }, mirrors: false, stretches: false } as const;

const barOf = (part: Part): Box => ({
  id: part.id,
  kind: "bar",
  part,
  ...PLAIN,
  title: part.id,
  name: part.label,
  pins: [],
  w: 0,
  h: 0,
  left: 0,
  right: 0,
  bottom: 0,
  mirrored: false,
});

const DESIGNATION_PX = 13;
const NAME_PX = 11;

function boxOf(
  part: Part,
  symbol: PartSymbol,
  tails: ReadonlyMap<string, Tail>,
  count: ReadonlyMap<string, number>,
  pinned: ReadonlyMap<string, "top" | "bottom">,
): Box {
  const pins = symbol.pins.map(
    (p): GraphPin => ({
      ...p,
      tail: tails.get(`${part.id}.${p.terminal}`),
      wired: (count.get(`${part.id}.${p.terminal}`) ?? 0) > 0,
    }),
  );
  // A module that nothing is wired to yet shows all its pins, for wires to be drawn to them.
  const isBare = part.family !== "module" || pins.every((p) => !p.wired);
  const kept = isBare ? pins : pins.filter((p) => p.wired || pinned.has(`${part.id}.${p.terminal}`));
  const title = shownAs(part.id);
  const label = Math.max(textWidth(title, DESIGNATION_PX, true), textWidth(part.label, NAME_PX));
  const longestTail = Math.max(0, ...kept.map((p) => p.tail?.length ?? 0));
  return {
    id: part.id,
    kind: "part",
    part,
    ink: { left: symbol.left, right: symbol.right },
    mirrors: symbol.mirrors,
    stretches: symbol.stretches,
    title,
    name: part.label,
    pins: kept,
    w: symbol.w,
    h: symbol.h,
    left: Math.ceil(symbol.left),
    // The label stands at the right; a module carries it inside.
    right: symbol.stretches
      ? 0
      : Math.ceil(Math.max(symbol.left * (symbol.mirrors ? 1 : 0), symbol.right) + label + 0.6),
    bottom: longestTail > 0 ? Math.ceil(longestTail + MARK_DEPTH) : 0,
    mirrored: false,
  };
}
