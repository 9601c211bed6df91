// Strokes of symbols, in units (1 unit = 10 px at 100 %). Roles, never colours: a theme maps a role to a style.

export type StrokeRole =
  | "line"
  | "heavy"
  | "blade"
  | "link"
  | "house"
  | "box"
  | "body"
  | "solid"
  | "lit"
  | "glow"
  | "live";

export interface PathStroke {
  readonly kind: "path";
  readonly role: StrokeRole;
  /** Absolute SVG path commands in units. */
  readonly d: string;
}

export interface TextStroke {
  readonly kind: "text";
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly anchor: "start" | "middle" | "end";
  readonly bold?: boolean;
  /** Reads upwards. */
  readonly upright?: boolean;
  /** Set on words that are more than a letter of the symbol: a title, the name of a pin. */
  readonly role?: "designation" | "name" | "pin";
}

export type Stroke = PathStroke | TextStroke;

const n = (v: number): string => String(Math.round(v * 1000) / 1000);

export const path = (role: StrokeRole, d: string): PathStroke => ({ kind: "path", role, d });

/** A line through points given as x, y, x, y ... */
export function line(role: StrokeRole, ...xy: readonly number[]): PathStroke {
  let d = "";
  for (let i = 0; i < xy.length; i += 2) d += `${i === 0 ? "M" : "L"}${n(xy[i] ?? 0)} ${n(xy[i + 1] ?? 0)}`;
  return path(role, d);
}

export const rect = (role: StrokeRole, x: number, y: number, w: number, h: number): PathStroke =>
  path(role, `M${n(x)} ${n(y)}H${n(x + w)}V${n(y + h)}H${n(x)}Z`);

export const circle = (role: StrokeRole, x: number, y: number, r: number): PathStroke =>
  path(
    role,
    `M${n(x - r)} ${n(y)}A${n(r)} ${n(r)} 0 1 1 ${n(x + r)} ${n(y)}A${n(r)} ${n(r)} 0 1 1 ${n(x - r)} ${n(y)}Z`,
  );

export const text = (
  x: number,
  y: number,
  words: string,
  size: number,
  anchor: TextStroke["anchor"] = "middle",
  bold = false,
): TextStroke => ({ kind: "text", x, y, text: words, size, anchor, bold });

/** A make contact between `top` and `bottom`: straight when closed, swung to the left when open. */
export const makeContact = (x: number, top: number, bottom: number, closed: boolean): readonly Stroke[] => [
  closed ? line("blade", x, bottom, x, top) : line("blade", x, bottom, x - 1.25, top + 0.15),
];

/** A rest contact: past its tick when closed, swung clear when open. */
export const restContact = (x: number, top: number, bottom: number, closed: boolean): readonly Stroke[] => [
  line("line", x, top, x + 0.9, top),
  closed ? line("blade", x, bottom, x + 0.75, top - 0.35) : line("blade", x, bottom, x - 0.7, top + 0.1),
];

/** A diode whose current goes down, or up. */
export const diode = (x: number, y: number, way: "down" | "up"): readonly Stroke[] => {
  const s = way === "down" ? 1 : -1;
  return [
    path("solid", `M${n(x - 0.6)} ${n(y - 0.5 * s)}L${n(x + 0.6)} ${n(y - 0.5 * s)}L${n(x)} ${n(y + 0.5 * s)}Z`),
    line("line", x - 0.6, y + 0.5 * s, x + 0.6, y + 0.5 * s),
  ];
};

export const ground = (x: number, y: number): readonly Stroke[] => [
  line("heavy", x - 1, y, x + 1, y),
  line("line", x - 0.6, y + 0.5, x + 0.6, y + 0.5),
  line("line", x - 0.22, y + 1, x + 0.22, y + 1),
];
