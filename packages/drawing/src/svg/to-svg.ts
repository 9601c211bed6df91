import type { Ink, PathInk, TextInk } from "../paint/ink.ts";
import { figures, writing } from "../paint/paint.ts";
import type { ThemeName } from "../paint/theme.ts";
import type { Scene } from "../scene/items.ts";

export interface SvgOptions {
  readonly theme: ThemeName;
  readonly title?: string;
  /** A line at the foot of the sheet. */
  readonly foot?: string;
}

const FONT = `"Atkinson Hyperlegible Next Variable","Atkinson Hyperlegible Next",system-ui,sans-serif`;
const n = (v: number): string => String(Math.round(v * 100) / 100);
const escaped = (s: string): string =>
  s.replace(/[&<>"']/g, (c) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" })[c] ?? c);

/** A scene as one self-contained SVG. Every text is escaped; nothing is fetched. */
export function toSvg(scene: Scene, options: SvgOptions): string {
  const title = options.title ?? scene.title;
  const { sheet, wires, parts, dots } = figures(scene, options.theme, true);
  const ink = [
    ...sheet,
    ...wires,
    ...parts.map((p) => p.ink),
    ...dots,
    ...writing(scene, options.theme, title, options.foot ?? ""),
  ];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${scene.width} ${scene.height}" width="${scene.width}" height="${scene.height}" role="img" font-family='${FONT}'>`,
    `<title>${escaped(title)}</title>`,
    ...ink.map(element),
    "</svg>",
  ].join("\n");
}

/** Attributes that have a value, in the order given. */
const attributes = (list: Readonly<Record<string, string | number | undefined>>): string =>
  Object.entries(list)
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => ` ${name}="${typeof value === "number" ? n(value) : value}"`)
    .join("");

function element(ink: Ink): string {
  switch (ink.kind) {
    case "path":
      return path(ink);
    case "rect": {
      const { x, y, width, height, corner, fill, stroke, line } = ink;
      return `<rect${attributes({ x, y, width, height, rx: corner, fill, stroke, "stroke-width": line })}/>`;
    }
    case "circle": {
      const { x, y, radius, fill, stroke, line } = ink;
      return `<circle${attributes({ cx: x, cy: y, r: radius, fill, stroke, "stroke-width": line })}/>`;
    }
    case "text":
      return text(ink);
    case "group": {
      const move = ink.x === 0 && ink.y === 0 ? [] : [`translate(${n(ink.x)} ${n(ink.y)})`];
      const flip = ink.mirrored === undefined ? [] : [`translate(${n(ink.mirrored)} 0)`, "scale(-1 1)"];
      const scale = ink.scale === 1 ? [] : [`scale(${n(ink.scale)})`];
      const transform = [...move, ...flip, ...scale].join(" ");
      return `<g${attributes({ transform: transform === "" ? undefined : transform })}>${ink.ink.map(element).join("")}</g>`;
    }
    default:
      return ink satisfies never;
  }
}

const path = ({ d, fill, stroke, width, dash, roundCap, roundJoin }: PathInk): string =>
  `<path${attributes({
    d,
    fill,
    stroke,
    "stroke-width": width,
    "stroke-linecap": roundCap ? "round" : undefined,
    "stroke-linejoin": roundJoin ? "round" : undefined,
    "stroke-dasharray": dash?.map(n).join(" "),
  })}/>`;

function text({ x, y, size, anchor, upright, fill, words, halo }: TextInk): string {
  const edge = halo && { "paint-order": "stroke", stroke: halo.colour, "stroke-width": halo.width };
  const join = halo && { "stroke-linejoin": "round" };
  const [only] = words.length === 1 ? words : [];
  const look = attributes({
    x,
    y,
    "font-size": String(size),
    "font-weight": only === undefined || only.weight === 400 ? undefined : String(only.weight),
    "text-anchor": anchor,
    fill,
    ...edge,
    ...join,
    transform: upright ? `rotate(-90 ${n(x)} ${n(y)})` : undefined,
  });
  const inner =
    only === undefined
      ? words.map((w) =>
          w.weight === 400 ? escaped(w.text) : `<tspan font-weight="${w.weight}">${escaped(w.text)}</tspan>`,
        )
      : [escaped(only.text)];
  return `<text${look}>${inner.join("")}</text>`;
}
