import { contactsOf, type PartWith } from "@loomproof/netlist";
import { circle, diode, line, makeContact, path, rect, restContact, type Stroke } from "./pen.ts";
import { type PartSymbol, type Potential, type SymbolPin, upAndDown } from "./symbol.ts";

const COIL_X = 2;
const FIRST_CONTACT_X = 6;
const H = 8;

interface Column {
  readonly pins: readonly SymbolPin[];
  readonly strokes: (isIn: boolean) => readonly Stroke[];
  readonly width: number;
  /** Where the link from the coil meets the blade. */
  readonly blade: (isIn: boolean) => number;
}

export function relay(part: PartWith<"relay">, potential: Potential): PartSymbol {
  const { values } = part;
  const coils = values.windings.map((w, i) => coilColumn(w.between, COIL_X + i * 4, potential));
  const suppressed = values.suppression.kind !== "none";
  let x = FIRST_CONTACT_X + (coils.length - 1) * 4;
  const contacts = contactsOf(values.contacts, part.kind).map((c) => {
    const made = contactColumn(c, x, potential);
    x += made.width;
    return made;
  });
  const w = x - 2;
  const width = Math.max(w, coils.length * 4 + 2);
  const left = suppressed ? 1 : 0.5;
  return {
    w: width,
    h: H,
    left,
    right: 0,
    mirrors: true,
    stretches: false,
    pins: [...coils, ...contacts].flatMap((c) => c.pins),
    strokes: ({ isIn = false }) => [
      rect("house", -left + 0.1, 0.9, width + left - 0.2, 6.2),
      ...(suppressed ? suppression(part) : []),
      ...coils.flatMap((c) => c.strokes(isIn)),
      ...contacts.flatMap((c) => c.strokes(isIn)),
      ...contacts.slice(-1).map((c) => line("link", COIL_X + (coils.length - 1) * 4 + 1.5, 4, c.blade(isIn), 4)),
    ],
  };
}

function coilColumn(between: readonly [string, string], x: number, potential: Potential): Column {
  const [top, bottom] = upAndDown(between[0], between[1], potential);
  return {
    width: 4,
    blade: () => x,
    pins: [
      { terminal: top, x, side: "top", named: true },
      { terminal: bottom, x, side: "bottom", named: true },
    ],
    strokes: (isIn) => [
      rect(isIn ? "live" : "body", x - 1.5, 3, 3, 2),
      line("line", x, 0, x, 3),
      line("line", x, 5, x, H),
    ],
  };
}

function suppression(part: PartWith<"relay">): readonly Stroke[] {
  const { suppression: s } = part.values;
  const loop = line("line", COIL_X, 2, -0.1, 2, -0.1, 6, COIL_X, 6);
  const dots = [circle("solid", COIL_X, 2, 0.14), circle("solid", COIL_X, 6, 0.14)];
  if (s.kind === "resistor") return [loop, rect("body", -0.45, 3, 0.7, 2), ...dots];
  return [loop, ...diode(-0.1, 4, "up"), ...dots];
}

function contactColumn(
  contact: { readonly common: string; readonly make: string | undefined; readonly break: string | undefined },
  x: number,
  potential: Potential,
): Column {
  const { common, make, break: rest } = contact;
  if (make !== undefined && rest !== undefined) return changeover(common, make, rest, x, potential);
  const other = make ?? rest ?? common;
  const [top, bottom] = upAndDown(common, other, potential);
  const leads = [line("line", x, 0, x, 2.6), line("line", x, 5.4, x, H)];
  return {
    width: 4,
    blade: (isIn) => (make !== undefined ? (isIn ? x : x - 0.62) : isIn ? x - 0.35 : x + 0.38),
    pins: [
      { terminal: top, x, side: "top", named: true },
      { terminal: bottom, x, side: "bottom", named: true },
    ],
    strokes: (isIn) => [
      ...leads,
      ...(make !== undefined ? makeContact(x, 2.6, 5.4, isIn) : restContact(x, 2.6, 5.4, !isIn)),
    ],
  };
}

/** Common on one side, its two throws on the other. */
function changeover(common: string, make: string, rest: string, x: number, potential: Potential): Column {
  const commonOnTop = potential(common) > Math.max(potential(make), potential(rest)) - 1e-6;
  const [near, far] = commonOnTop ? [0, H] : [H, 0];
  const side = (top: boolean): "top" | "bottom" => (top ? "top" : "bottom");
  const mid = x + 2;
  const throws = commonOnTop ? 5.4 : 2.6;
  const pivot = commonOnTop ? 2.6 : 5.4;
  return {
    width: 8,
    blade: (isIn) => (isIn ? mid - 0.6 : mid + 0.6),
    pins: [
      { terminal: common, x: mid, side: side(commonOnTop), named: true },
      { terminal: make, x, side: side(!commonOnTop), named: true },
      { terminal: rest, x: x + 4, side: side(!commonOnTop), named: true },
    ],
    strokes: (isIn) => [
      line("line", mid, near, mid, pivot),
      path("line", `M${x} ${far}V${throws}H${x + 0.8}`),
      path("line", `M${x + 4} ${far}V${throws}H${x + 3.2}`),
      line("blade", mid, pivot, isIn ? mid - 1.15 : mid + 1.15, throws),
    ],
  };
}
