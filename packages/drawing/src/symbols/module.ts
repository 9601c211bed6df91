import type { PartWith } from "@loomproof/netlist";
import { textWidth } from "../texts/width.ts";
import type { Facing, PartSymbol, Potential, SymbolPin } from "./symbol.ts";

const PITCH = 3;
/** Size of the terminal numbers, which stand beside the wires outside. */
export const PIN_NUMBER_PX = 10.5;
/** Size of the pin names, which stand upright inside. */
export const PIN_NAME_PX = 10.5;
const TITLE_ROOM = 4;

/** Units from pin to pin, so that the number of each has room before the next wire. */
export const pinPitch = (terminals: readonly string[]): number =>
  Math.max(PITCH, ...terminals.map((t) => Math.ceil(textWidth(t, PIN_NUMBER_PX) + 0.9)));

/** Where the title of a module stands from its left edge, and what follows it, units. */
export const TITLE_AT = 1.2;
export const TITLE_GAP = 0.6;
export const TITLE_PX = 13;
export const NAME_PX = 11;

/** Units that the title and the name of a module take, edge to edge. */
export const titleRoom = (title: string, name: string): number =>
  2 * TITLE_AT + textWidth(title, TITLE_PX, true) + TITLE_GAP + textWidth(name, NAME_PX);

/** Units of a module from top to bottom, with these pin names over and under its title. */
export function moduleHeight(above: readonly string[], below: readonly string[]): number {
  const longest = (names: readonly string[]) => Math.max(0, ...names.map((n) => textWidth(n, PIN_NAME_PX)));
  return Math.ceil(longest(above) + longest(below) + TITLE_ROOM + 3);
}

/**
 * A solid box: the only parts whose inside is unknown. Supply stands on top, grounds below; any other pin looks towards
 * what it meets. Layout may move pins along their edge.
 */
export function moduleFamily(part: PartWith<"module">, potential: Potential, facing: Facing): PartSymbol {
  const top: string[] = [];
  const bottom: string[] = [];
  for (const pin of part.definition.pins) {
    const isTop =
      pin.kind === "supply" ||
      pin.kind === "low-side" ||
      pin.kind === "input" ||
      (pin.kind === "plain" && potential(pin.pin) > 0.5);
    const isGround = pin.kind === "ground" || pin.kind === "sensor-ground";
    const side = facing(pin.pin) ?? (isTop ? "top" : "bottom");
    (pin.kind === "supply" || (side === "top" && !isGround) ? top : bottom).push(pin.pin);
  }
  const nameOf = (pin: string) => part.definition.pins.find((p) => p.pin === pin)?.name ?? "";
  const pitch = pinPitch([...top, ...bottom]);
  const w = Math.max(12, Math.ceil(titleRoom(part.id, part.label)), (Math.max(top.length, bottom.length) + 1) * pitch);
  const row = (list: readonly string[], side: "top" | "bottom"): SymbolPin[] => {
    const first = Math.round((w - (list.length - 1) * pitch) / 2);
    // A pin whose name is its number carries it once, inside.
    return list.map((terminal, i) => ({ terminal, x: first + i * pitch, side, named: nameOf(terminal) !== terminal }));
  };
  return {
    w,
    h: moduleHeight(top.map(nameOf), bottom.map(nameOf)),
    left: 0,
    right: 0,
    mirrors: false,
    stretches: true,
    pins: [...row(top, "top"), ...row(bottom, "bottom")],
    strokes: () => [],
  };
}
