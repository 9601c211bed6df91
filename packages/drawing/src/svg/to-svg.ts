import type { MarkItem, Scene, Sleeve, SymbolItem, TextItem, WireItem, ZoneItem } from "../scene/items.ts";
import type { Stroke, StrokeRole } from "../symbols/pen.ts";
import { hopArc, wirePath } from "./path-text.ts";
import { INSULATION, mixed, THEMES, type Theme, type ThemeName } from "./theme.ts";

export interface SvgOptions {
  readonly theme: ThemeName;
  readonly title?: string;
  /** A line at the foot of the sheet. */
  readonly foot?: string;
}

const FONT = `"Atkinson Hyperlegible Next Variable","Atkinson Hyperlegible Next",system-ui,sans-serif`;
const SLEEVE = 11;
const n = (v: number): string => String(Math.round(v * 100) / 100);
const escaped = (s: string): string =>
  s.replace(/[&<>"']/g, (c) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" })[c] ?? c);

/** A scene as one self-contained SVG. Every text is escaped; nothing is fetched. */
export function toSvg(scene: Scene, options: SvgOptions): string {
  const theme = THEMES[options.theme];
  const pen = new Pen(theme);
  const lit = <T extends { readonly dim: boolean }>(list: readonly T[]) => [
    ...list.filter((i) => i.dim),
    ...list.filter((i) => !i.dim),
  ];
  const wires = lit(scene.wires);
  const title = options.title ?? scene.title;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${scene.width} ${scene.height}" width="${scene.width}" height="${scene.height}" role="img" font-family='${FONT}'>`,
    `<title>${escaped(title)}</title>`,
    ...sheet(scene, theme, title, options.foot ?? ""),
    ...scene.zones.map((z) => pen.zone(z)),
    ...wires.filter((w) => !w.dim).map((w) => pen.sleeve(w)),
    ...scene.bars.map((b) => pen.bar(b)),
    ...wires.map((w) => pen.wire(w)),
    ...wires.flatMap((w) => pen.hops(w)),
    ...lit(scene.symbols).map((s) => pen.symbol(s)),
    ...scene.dots.map((d) => pen.dot(d.at.x, d.at.y, d.kind, d.dim)),
    ...scene.texts.map((t) => pen.text(t)),
    ...scene.marks.map((m) => pen.mark(m)),
    "</svg>",
  ].join("\n");
}

/** The sheet with its frame and zones (after ISO 5457, from memory), its title and the foot line. */
function sheet(scene: Scene, theme: Theme, title: string, foot: string): readonly string[] {
  const { width, height } = scene;
  const [x0, y0, x1, y1] = [14, 14, width - 14, height - 14];
  const out = [`<rect width="${width}" height="${height}" fill="${theme.sheet}"/>`];
  out.push(
    `<rect x="${x0}" y="${y0}" width="${x1 - x0}" height="${y1 - y0}" fill="none" stroke="${theme.line}" stroke-width="1"/>`,
  );
  const zone = (text: string, x: number, y: number) =>
    `<text x="${n(x)}" y="${n(y)}" font-size="10.5" text-anchor="middle" fill="${theme.ink2}">${text}</text>`;
  for (let i = 0; i < 8; i++) {
    const x = x0 + ((x1 - x0) * i) / 8;
    out.push(zone(String(i + 1), x + (x1 - x0) / 16, y0 + 12));
    if (i > 0) out.push(`<path d="M${n(x)} ${y0}v5M${n(x)} ${y1}v-5" stroke="${theme.line}"/>`);
  }
  for (let i = 0; i < 5; i++) {
    const y = y0 + ((y1 - y0) * i) / 5;
    out.push(zone("ABCDE"[i] ?? "", x0 + 9, y + (y1 - y0) / 10 + 4));
    if (i > 0) out.push(`<path d="M${x0} ${n(y)}h5M${x1} ${n(y)}h-5" stroke="${theme.line}"/>`);
  }
  out.push(
    `<text x="${x1 - 12}" y="${y1 - 12}" font-size="14" font-weight="650" text-anchor="end" fill="${theme.ink}">${escaped(title)}</text>`,
  );
  if (foot !== "")
    out.push(`<text x="${x0 + 20}" y="${y1 - 12}" font-size="11" fill="${theme.ink2}">${escaped(foot)}</text>`);
  return out;
}

const LINE: { readonly [R in StrokeRole]: { readonly width: number; readonly dash?: string } } = {
  line: { width: 1.5 },
  heavy: { width: 2.4 },
  blade: { width: 2.8 },
  link: { width: 1.2, dash: "3 3" },
  house: { width: 1, dash: "7 3 1.5 3" },
  box: { width: 2 },
  body: { width: 1.5 },
  solid: { width: 0 },
  lit: { width: 1.5 },
  live: { width: 1.5 },
  glow: { width: 0 },
};

/** Draws items in one theme. */
class Pen {
  readonly #theme: Theme;

  constructor(theme: Theme) {
    this.#theme = theme;
  }

  #colour(colour: string, dim: boolean): string {
    return dim ? mixed(colour, this.#theme.sheet, this.#theme.dim) : colour;
  }

  #sleeveColours(state: Sleeve): { readonly fill: string; readonly edge: string } {
    const t = this.#theme;
    switch (state) {
      case "feed":
        return { fill: t.feed, edge: t.feedEdge };
      case "between":
        return { fill: t.between, edge: t.betweenEdge };
      case "ground":
        return { fill: t.sheet, edge: t.groundEdge };
      case "float":
        return { fill: t.sheet, edge: t.floatEdge };
      default:
        return state satisfies never;
    }
  }

  /** The state of a wire, round it: solid, with cross ticks, as two lines, or dotted. */
  sleeve(wire: WireItem): string {
    if (wire.sleeve === undefined) return "";
    const { fill, edge } = this.#sleeveColours(wire.sleeve);
    const d = wirePath(wire);
    const wide = wire.width + (wire.sleeve === "feed" || wire.sleeve === "between" ? SLEEVE : SLEEVE - 1.5);
    const stroke = (colour: string, width: number, dash = "") =>
      `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${n(width)}" stroke-linejoin="round"${dash === "" ? "" : ` stroke-dasharray="${dash}"`}/>`;
    if (wire.sleeve === "float") return stroke(edge, wide, "1.5 4.5") + stroke(fill, wide - 3);
    const ticks = wire.sleeve === "between" ? stroke(edge, wide, "1 7.6") : "";
    return stroke(edge, wide) + stroke(fill, wide - 2.4) + ticks;
  }

  /** Outline, core and tracer. */
  wire(wire: WireItem): string {
    const d = wirePath(wire);
    const c = (colour: string) => this.#colour(colour, wire.dim);
    const base = INSULATION[wire.base] ?? INSULATION.GY ?? "";
    const tracer = wire.tracer === undefined ? "" : (INSULATION[wire.tracer] ?? "");
    const path = (colour: string, width: number, dash = "") =>
      `<path d="${d}" fill="none" stroke="${c(colour)}" stroke-width="${n(width)}" stroke-linejoin="round"${dash === "" ? "" : ` stroke-dasharray="${dash}"`}/>`;
    return (
      path(this.#theme.wireEdge, wire.width + 1.8) +
      path(base, wire.width) +
      (tracer === "" ? "" : path(tracer, Math.max(1.4, wire.width * 0.42), "9 5"))
    );
  }

  /** The gap under each jump, and the jump again on top of it. */
  hops(wire: WireItem): readonly string[] {
    const base = INSULATION[wire.base] ?? "";
    return wire.hops.map((hop) => {
      const [a, b] = [wire.points[hop.segment], wire.points[hop.segment + 1]];
      const d = hopArc(hop.at, hop.over, a?.y === b?.y);
      const arc = (colour: string, width: number) =>
        `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${n(width)}"/>`;
      return (
        arc(this.#theme.sheet, wire.width + 5) +
        arc(this.#colour(this.#theme.wireEdge, wire.dim), wire.width + 1.8) +
        arc(this.#colour(base, wire.dim), wire.width)
      );
    });
  }

  zone({ room: { x0, y0, x1, y1 } }: ZoneItem): string {
    return `<rect x="${n(x0)}" y="${n(y0)}" width="${n(x1 - x0)}" height="${n(y1 - y0)}" fill="none" stroke="${this.#theme.line}" stroke-width="1"/>`;
  }

  bar({
    x0,
    x1,
    y,
    dim,
  }: {
    readonly x0: number;
    readonly x1: number;
    readonly y: number;
    readonly dim: boolean;
  }): string {
    return `<path d="M${n(x0)} ${n(y)}H${n(x1)}" stroke="${this.#colour(this.#theme.ink, dim)}" stroke-width="3" stroke-linecap="round"/>`;
  }

  dot(x: number, y: number, kind: "joint" | "terminal", dim: boolean): string {
    const { ink, sheet } = this.#theme;
    return kind === "joint"
      ? `<circle cx="${n(x)}" cy="${n(y)}" r="4" fill="${this.#colour(ink, dim)}" stroke="${sheet}" stroke-width="1"/>`
      : `<circle cx="${n(x)}" cy="${n(y)}" r="2.2" fill="${sheet}" stroke="${this.#colour(ink, dim)}" stroke-width="1.2"/>`;
  }

  symbol(s: SymbolItem): string {
    const flip = s.mirrored ? ` translate(${n(s.width)} 0) scale(-1 1)` : "";
    const paths = s.strokes.filter((k) => k.kind === "path").map((k) => this.#stroke(k, s.dim));
    // Texts of a mirrored symbol are put in the mirror's place but stay readable.
    const texts = s.strokes
      .filter((k) => k.kind === "text")
      .map((k) => this.#symbolText(s.mirrored ? { ...k, x: s.width / 10 - k.x } : k, s.dim));
    return `<g transform="translate(${n(s.x)} ${n(s.y)})"><g transform="${flip.trim() === "" ? "scale(10)" : `${flip.trim()} scale(10)`}">${paths.join("")}</g>${texts.join("")}</g>`;
  }

  #stroke(s: Extract<Stroke, { kind: "path" }>, dim: boolean): string {
    const t = this.#theme;
    const ink = this.#colour(t.ink, dim);
    const { width, dash } = LINE[s.role];
    const fill =
      s.role === "solid"
        ? ink
        : s.role === "lit" || s.role === "live"
          ? this.#colour(s.role === "lit" ? t.lit : t.feed, dim)
          : s.role === "glow"
            ? this.#colour(t.glow, dim)
            : s.role === "body"
              ? t.sheet
              : s.role === "box"
                ? t.raise
                : s.role === "house"
                  ? mixed(t.raise, t.sheet, 0.55)
                  : "none";
    const stroke = s.role === "house" ? this.#colour(t.line, dim) : ink;
    const line =
      width === 0
        ? ""
        : ` stroke="${stroke}" stroke-width="${n(width / 10)}" stroke-linecap="round" stroke-linejoin="round"`;
    const dashes =
      dash === undefined
        ? ""
        : ` stroke-dasharray="${dash
            .split(" ")
            .map((v) => n(Number(v) / 10))
            .join(" ")}"`;
    return `<path d="${s.d}" fill="${fill}"${line}${dashes}/>`;
  }

  #symbolText(s: Extract<Stroke, { kind: "text" }>, dim: boolean): string {
    const at = s.upright ? ` transform="rotate(-90 ${n(s.x * 10)} ${n(s.y * 10)})"` : "";
    return `<text x="${n(s.x * 10)}" y="${n(s.y * 10)}" font-size="${s.size}"${s.bold ? ' font-weight="650"' : ""} text-anchor="${s.anchor}" fill="${this.#colour(this.#theme.ink, dim)}"${at}>${escaped(s.text)}</text>`;
  }

  text(t: TextItem): string {
    const { ink, ink2, sheet } = this.#theme;
    const colour = this.#colour(t.role === "designation" || t.bold ? ink : ink2, t.dim);
    const at = t.upright ? ` transform="rotate(-90 ${n(t.x)} ${n(t.y)})"` : "";
    const edge =
      t.role === "pin" ? ` paint-order="stroke" stroke="${sheet}" stroke-width="2.4" stroke-linejoin="round"` : "";
    const words = t.role === "wire" ? this.#wireWords(t.text) : escaped(t.text);
    const weight = t.bold && t.role !== "wire" ? ' font-weight="700"' : "";
    return `<text x="${n(t.x)}" y="${n(t.y)}" font-size="${t.size}"${weight} text-anchor="${t.anchor}" fill="${colour}"${edge}${at}>${words}</text>`;
  }

  /** The number bold, size and colour plain. */
  #wireWords(text: string): string {
    const [number = "", ...rest] = text.split(" ");
    return `<tspan font-weight="700">${escaped(number)}</tspan>${rest.length === 0 ? "" : ` ${escaped(rest.join(" "))}`}`;
  }

  mark(m: MarkItem): string {
    const t = this.#theme;
    if (m.kind === "ring")
      return `<circle cx="${n(m.at.x)}" cy="${n(m.at.y)}" r="${m.radius}" fill="none" stroke="${t.danger}" stroke-width="3"/>`;
    const edge = m.sleeve === undefined ? t.ink : this.#sleeveColours(m.sleeve).edge;
    const { width } = m;
    return (
      `<g transform="translate(${n(m.at.x)} ${n(m.at.y)})"><rect width="${n(width)}" height="16" rx="3" fill="${t.raise}" stroke="${edge}" stroke-width="1.5"/>` +
      `<text x="${n(width / 2)}" y="12" font-size="11" font-weight="700" text-anchor="middle" fill="${t.ink}">${escaped(m.text)}</text></g>`
    );
  }
}
