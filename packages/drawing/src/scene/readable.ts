import type { TextStroke } from "../symbols/pen.ts";
import { PX, type Scene, type SymbolItem, type TextItem, type TextRole } from "./items.ts";
import { overlaps } from "./labels.ts";
import { textItem } from "./parts.ts";

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
export function readable(scene: Scene, zoom: number): { readonly texts: readonly TextItem[]; readonly larger: number } {
  const larger = Math.max(1, FULL / zoom);
  const all = [...scene.texts, ...scene.symbols.flatMap(wordsIn)];
  if (larger === 1) return { texts: all, larger };
  const wanted = all
    .filter((t) => isWanted(t, zoom, scene))
    .map((t) => grown(zoom < NUMBERS ? shortened(t, zoom) : t, larger))
    .toSorted((a, b) => Number(a.dim) - Number(b.dim) || RANK[a.role] - RANK[b.role]);
  const kept: TextItem[] = [];
  for (const t of wanted) if (!kept.some((k) => overlaps(k.room, t.room))) kept.push(t);
  return { texts: kept, larger };
}

function isWanted({ role, dim }: TextItem, zoom: number, { zones, marks }: Scene): boolean {
  if (role === "zone") return true;
  if (zoom < ZONES && zones.length > 0) return false;
  // Of a lit path the wires keep their numbers, since what is said about it names them.
  if (zoom < DESIGNATIONS) return role === "designation" || (role === "wire" && !dim && marks.length > 0);
  return zoom >= FIXED || (role !== "link" && role !== "pin");
}

/** Only what is looked for from afar: the number of a wire, the designation of a joint. */
function shortened(t: TextItem, zoom: number): TextItem {
  if (t.role !== "wire" && (t.role !== "bar" || zoom >= FIXED)) return t;
  const [first = ""] = t.text.split(" ");
  return first === t.text ? t : again(t, first, t.x, t.y, t.size);
}

/** Larger about its own middle; names stay where they begin. */
function grown(t: TextItem, by: number): TextItem {
  const more = t.size * (by - 1) * 0.27;
  const [width, height] = [t.room.x1 - t.room.x0, t.room.y1 - t.room.y0];
  const isFixed = t.role !== "wire";
  if (t.upright) return again(t, t.text, t.x + more, t.y + (height * (by - 1)) / 2, t.size * by);
  const aside = isFixed || t.anchor !== "start" ? 0 : (width * (by - 1)) / 2;
  return again(t, t.text, t.x - aside, t.y + more, t.size * by);
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
