import type { TextStroke } from "../symbols/pen.ts";
import { textWidth } from "../texts/width.ts";
import { type MarkItem, PX, type Scene, type SymbolItem, type TextItem, type TextRole } from "./items.ts";
import { roomOf } from "./marks.ts";
import { textItem } from "./parts.ts";
import { Rooms, wireRooms } from "./rooms.ts";

/** At this zoom the smallest text of a drawing is about 10 px on the screen; below it texts are drawn larger. */
const FULL = 0.95;
/** Below these, wires keep only their number, then only designations are left, then only names of zones. */
const NUMBERS = 0.85;
const DESIGNATIONS = 0.45;
const ZONES = 0.25;
/** Words that have no room to grow are left out below this. */
const FIXED = 0.7;

// Who keeps its place when two larger texts would meet.
const RANK: { readonly [R in TextRole]: number } = {
  zone: 0,
  designation: 1,
  bar: 2,
  wire: 3,
  name: 4,
  ground: 5,
  pin: 6,
  link: 7,
  tag: 8,
  step: 8,
};

/** The texts that can be read at a zoom, none on another, and how much larger everything written is drawn. */
export function readable(
  scene: Scene,
  zoom: number,
): { readonly texts: readonly TextItem[]; readonly marks: readonly MarkItem[]; readonly larger: number } {
  const larger = Math.max(1, FULL / zoom);
  const all = [...scene.texts, ...scene.symbols.flatMap(wordsIn)];
  if (larger === 1) return { texts: all, marks: scene.marks, larger };
  const wanted = all
    .filter((t) => isWanted(t, zoom, scene))
    .toSorted((a, b) => Number(a.dim) - Number(b.dim) || RANK[a.role] - RANK[b.role]);
  const wires = new Rooms(wireRooms(scene, 0));
  const taken = new Rooms();
  const marks = scene.marks.filter((m) => {
    // A ring keeps its size: it goes round a part, which does not grow either.
    const room = roomOf(m, m.kind === "ring" ? 1 : larger);
    // A step gives way; a tag is what the finding hangs on.
    if (m.kind === "step" && !taken.isFree(room)) return false;
    taken.add(room);
    return true;
  });
  const texts: TextItem[] = [];
  for (const t of wanted) {
    const places = [...grown(t, zoom, larger)].filter((p) => taken.isFree(p.room));
    // The name of a zone stands over the whole zone anyway.
    const clear = t.role === "zone" ? undefined : places.find((p) => wires.isFree(p.room));
    const place = clear ?? places[0];
    if (place === undefined) continue;
    taken.add(place.room);
    texts.push(place);
  }
  return { texts, marks, larger };
}

function isWanted({ role, dim }: TextItem, zoom: number, { zones, marks }: Scene): boolean {
  if (role === "zone") return true;
  if (zoom < ZONES && zones.length > 0) return false;
  // Of a lit path the wires keep their numbers, since what is said about it names them.
  if (zoom < DESIGNATIONS) return role === "designation" || (role === "wire" && !dim && marks.length > 0);
  return zoom >= FIXED || (role !== "link" && role !== "pin");
}

/** Only what is looked for from afar: the number of a wire, a zone or, further off, of a joint; all of it first where it fits. */
function wordings(t: TextItem, zoom: number): readonly string[] {
  const [first = ""] = t.text.split(" ");
  if (t.role === "zone") return [t.text, first];
  return t.role === "wire" && zoom < NUMBERS ? [first] : t.role === "bar" && zoom < FIXED ? [first] : [t.text];
}

/** Larger about its own middle, or along its wire about one end; names stay where they begin. */
function* grown(t: TextItem, zoom: number, by: number): Iterable<TextItem> {
  const gain = t.size * (by - 1);
  const more = gain * 0.27;
  // About its middle; or one edge stays, so that it grows away from its wire.
  const acrosses = t.role === "wire" ? [more, gain * -0.22, gain * 0.76] : [more];
  for (const words of wordings(t, zoom)) {
    const width = t.upright ? t.room.y1 - t.room.y0 : t.room.x1 - t.room.x0;
    const now = textWidth(words, t.size * by, t.bold) * PX;
    const shares = t.role === "wire" ? [0.5, 0, 1] : t.role === "bar" ? [0, 1] : [0];
    for (const across of acrosses)
      for (const share of shares) {
        const along = t.anchor === "start" ? (width - now) * share : 0;
        yield t.upright
          ? again(t, words, t.x + across, t.y - along, t.size * by)
          : again(t, words, t.x + along, t.y + across, t.size * by);
      }
  }
}

const again = (t: TextItem, text: string, x: number, y: number, size: number): TextItem =>
  textItem(t.id, t.role, text, { x, y }, size, { bold: t.bold, anchor: t.anchor, upright: t.upright, dim: t.dim });

/** Title, name and pin names that stand inside a symbol. */
const wordsIn = (s: SymbolItem): readonly TextItem[] =>
  s.strokes.flatMap((k) => (k.kind === "text" && k.role !== undefined ? [wordItem(s, k, k.role)] : []));

function wordItem(s: SymbolItem, k: TextStroke, role: TextRole): TextItem {
  const at = { x: s.x + (s.mirrored ? s.width / PX - k.x : k.x) * PX, y: s.y + k.y * PX };
  const { bold = false, upright = false, anchor } = k;
  return textItem(`${s.id} ${role}`, role, k.text, at, k.size, { bold, upright, anchor, dim: s.dim });
}
