import type { Rect } from "../layout/frame.ts";
import type { Placed } from "../layout/layout.ts";
import type { MarkItem, Marks, Scene, Spot, SymbolItem } from "./items.ts";
import { Rooms, wireRooms } from "./rooms.ts";
import { shownTerminal } from "./wires.ts";

// What is laid on a drawing to lead the eye: volt tags, steps of a path, one ring.

type Drawn = Omit<Scene, "marks">;
type Shift = (x: number, y: number) => Spot;

export const TAG_HEIGHT = 16;
const STEP_RADIUS = 8.5;
/** Half a sleeve: a step stands beside what is lit, not on it. */
const SLEEVE = 6;
const AIR = 2;

const tagWidth = (text: string): number => text.length * 6.6 + 12;

/** Steps first: a tag has more places to go to, and covers something rather than being left out. */
export function marksOn(drawn: Drawn, placed: Placed, shift: Shift, marks: Marks): readonly MarkItem[] {
  const spotOf = (terminal: string, end: "from" | "to"): Spot | undefined => {
    const lead = placed.routed.leads.find((l) => shownTerminal(l.terminal) === terminal);
    return lead && shift(lead[end].x, lead[end].y);
  };
  const taken = new Rooms([...drawn.symbols.map((p) => p.room), ...drawn.texts.map((t) => t.room)]);
  const wires = new Rooms(wireRooms(drawn, SLEEVE));
  const steps = (marks.steps ?? []).flatMap((at, i): readonly MarkItem[] => {
    const spot = spotOf(at, "from");
    if (spot === undefined) return [];
    const isAt = ({ id, room }: SymbolItem) =>
      at.startsWith(`${id}.`) &&
      spot.x >= room.x0 &&
      spot.x <= room.x1 &&
      spot.y >= room.y0 - 1 &&
      spot.y <= room.y1 + 1;
    const part = drawn.symbols.find(isAt);
    const outward = part !== undefined && spot.x > (part.room.x0 + part.room.x1) / 2 ? 1 : -1;
    return stepAt(spot, String(i + 1), outward, taken, wires);
  });
  const tags = (marks.volts ?? []).flatMap(({ at, text, sleeve }): MarkItem[] => {
    const spot = spotOf(at, "to");
    return spot === undefined ? [] : [tagAt(spot, text, sleeve, taken)];
  });
  return [...tags, ...steps, ...ringMark(drawn.symbols, marks)];
}

/** Beside its terminal, where it covers nothing; over something only if there is no such place. */
function tagAt(spot: Spot, text: string, sleeve: MarkItem["sleeve"], taken: Rooms): MarkItem {
  const width = tagWidth(text);
  const places = [12, 24, 40, 56].flatMap((d) => [
    { x: spot.x + 12, y: spot.y - d },
    { x: spot.x + 12, y: spot.y + d - TAG_HEIGHT },
    { x: spot.x - 12 - width, y: spot.y - d },
    { x: spot.x - 12 - width, y: spot.y + d - TAG_HEIGHT },
  ]);
  const mark = (at: Spot): MarkItem => ({ kind: "volts", at, text, sleeve, radius: 0, width });
  const place = places.map(mark).find((m) => taken.isFree(roomOf(m))) ?? mark({ x: spot.x + 12, y: spot.y - 12 });
  taken.add(roomOf(place));
  return place;
}

/** Beside the terminal, further along its wire, further aside. */
const ASIDE = [14, 18, 24, 32];
const ALONG = [-6, 6, -14, 14, -26, 26, -38, 38];

/** Beside the terminal where the current comes in, away from its part, where it covers nothing; else nowhere. */
function stepAt(spot: Spot, text: string, outward: number, taken: Rooms, wires: Rooms): readonly MarkItem[] {
  for (const aside of ASIDE)
    for (const side of [outward, -outward])
      for (const along of ALONG) {
        const at = { x: spot.x + side * aside, y: spot.y + along };
        const mark: MarkItem = { kind: "step", at, text, sleeve: undefined, radius: STEP_RADIUS, width: 0 };
        if (!taken.isFree(roomOf(mark)) || !wires.isFree(roomOf(mark))) continue;
        taken.add(roomOf(mark));
        return [mark];
      }
  return [];
}

/** What a tag or a step covers, `larger` against a zoom, with a little air. */
export function roomOf({ kind, at, width, radius }: MarkItem, larger = 1): Rect {
  if (kind !== "volts") {
    const r = radius * larger + AIR;
    return { x0: at.x - r, x1: at.x + r, y0: at.y - r, y1: at.y + r };
  }
  const middle = at.y + TAG_HEIGHT / 2;
  const half = (TAG_HEIGHT / 2) * larger + AIR;
  return { x0: at.x - AIR, x1: at.x + width * larger + AIR, y0: middle - half, y1: middle + half };
}

function ringMark(symbols: readonly SymbolItem[], { ring }: Marks): readonly MarkItem[] {
  const symbol = symbols.find((s) => s.id === ring);
  if (symbol === undefined) return [];
  // The ring goes round the coil of a relay, or the middle of anything else.
  const isWide = symbol.width >= 80;
  const x = symbol.mirrored ? symbol.x + symbol.width - 20 : symbol.x + (isWide ? 20 : symbol.width / 2);
  const at = { x, y: (symbol.room.y0 + symbol.room.y1) / 2 };
  return [{ kind: "ring", at, text: "", sleeve: undefined, radius: 24, width: 0 }];
}
