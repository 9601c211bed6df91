import type { Case, CasePart, TerminalName } from "./case-types.ts";
import { natureOf } from "./load.ts";

// Names of terminals: joints have one terminal without a name of its own, lamps and heaters have ends a and b.

/** Turns a terminal of the case into the terminal of the loom, always with its dot: "PB.x" is "PB.1". */
export function terminalNames(one: Pick<Case, "parts">): (terminal: TerminalName) => string {
  const parts = new Map(one.parts.map((p) => [p.id, p]));
  return (text) => {
    const dot = text.indexOf(".");
    const part = parts.get(text.slice(0, dot));
    const name = text.slice(dot + 1);
    return part === undefined ? text : `${part.id}.${nameIn(part, name)}`;
  };
}

function nameIn(part: CasePart, name: string): string {
  if (part.kind === "joint") return "1";
  if (part.kind === "load" && natureOf(part).is !== "motor") return name === "+" ? "a" : "b";
  return name;
}

/** How a wire names its end: a part with one terminal is named without it. */
export const endOf = (terminal: string): string => (terminal.endsWith(".1") ? terminal.slice(0, -2) : terminal);

/** Ends that the case itself leaves open although the part needs a wire there: it is cut out of a larger loom. */
export function openEndsOf(one: Pick<Case, "parts" | "wires">): string[] {
  const name = terminalNames(one);
  const wired = one.wires.flatMap((w) => [w.from, w.to]);
  const count = (terminal: string): number => wired.filter((t) => t === terminal).length;
  return one.parts.flatMap((part) => {
    if (part.kind === "joint")
      return part.what !== "body metal" && count(`${part.id}.x`) === 1 ? [name(`${part.id}.x`)] : [];
    return needed(part)
      .map((t) => `${part.id}.${t}`)
      .filter((t) => count(t) === 0)
      .map(name);
  });
}

function needed(part: CasePart): readonly string[] {
  switch (part.kind) {
    case "battery":
    case "fuse":
    case "resistor":
    case "diode":
    case "led":
    case "load":
      return part.terminals;
    case "switch":
      return part.terminals.length === 2 ? part.terminals : [];
    case "relay": {
      const [only, ...more] = part.contacts;
      const contact = [only?.common, only?.open_contact, only?.closed_contact].filter((t) => t !== undefined);
      return more.length > 0 || contact.length > 2 ? part.coil : [...part.coil, ...contact];
    }
    case "device":
    case "joint":
      return [];
    default:
      return part satisfies never;
  }
}
