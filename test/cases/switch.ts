import type { Loom } from "@loomproof/netlist";
import type { CasePart, SwitchPart } from "./case-types.ts";
import { natureOf } from "./load.ts";
import { amps, ohms } from "./quantities.ts";

// Switches of a case: positions, what they join, and how neighbours are passed. A position named `X~Y` is the state
// between X and Y.

type LoomPart = Loom["parts"][number];
type Pairs = readonly (readonly [string, string])[];

const BETWEEN = "~";

export function convertSwitch(part: SwitchPart, start: string, others: readonly CasePart[]): LoomPart {
  const what = part.what ?? "";
  const isKey = what.includes("key switch");
  const { positions, between } = positionsOf(part);
  const order = ordered(positions, isKey || what.includes("isolator") ? "OFF" : start);
  return {
    id: part.id,
    is: isKey ? "key-switch" : "switch",
    ...(isKey ? {} : { kind: kindOf(what) }),
    label: what,
    positions: order,
    joins: Object.fromEntries(positions.map((p) => [p, (part.closed[p] ?? []).map((pair) => [...pair])])),
    ...roleOf(what),
    ...stopsOf(part, others),
    ...returnsOf(what, order),
    ...(Object.keys(between).length > 0 ? { between } : {}),
    contactOhms: ohms(part.contact_ohms),
    rated: amps(part.contact_amps),
  };
}

/** Positions a hand can leave the switch in, and how it passes from one to the next where the case says so. */
export function positionsOf(part: SwitchPart): { positions: string[]; between: Record<string, "make-first"> } {
  const between: Record<string, "make-first"> = {};
  const positions = Object.keys(part.closed).filter((name) => {
    const [from, to] = name.split(BETWEEN);
    if (from === undefined || to === undefined) return true;
    const passing = keys(part.closed[name] ?? []);
    const [here, there] = [keys(part.closed[from] ?? []), keys(part.closed[to] ?? [])];
    const common = here.filter((k) => there.includes(k));
    // Break-first is the rule of the format. An open gap where both neighbours share a contact is a position of its own.
    if (same(passing, common)) return false;
    if (!same(passing, [...new Set([...here, ...there])])) return true;
    between[`${from}>${to}`] = "make-first";
    return false;
  });
  return { positions, between };
}

const keys = (pairs: Pairs): string[] => pairs.map(([a, b]) => [a, b].sort().join(" "));
const same = (x: readonly string[], y: readonly string[]): boolean =>
  x.length === y.length && x.every((k) => y.includes(k));

/** The first position is the rest of a switch, or the off of a key or isolator. Only pairs are turned round. */
function ordered(positions: readonly string[], first: string): string[] {
  return positions.length === 2 && positions[1] === first ? [...positions].reverse() : [...positions];
}

function kindOf(what: string): string {
  if (what.includes("isolator")) return "isolator";
  if (what.includes("seat switch")) return "seat";
  if (what.includes("stop button")) return "push-break";
  return isMomentary(what) || what.includes("door switch") ? "push" : "toggle";
}

const isMomentary = (what: string): boolean => ["button", "momentary", "flash lever"].some((w) => what.includes(w));

function roleOf(what: string): { role?: string } {
  if (what.includes("isolator")) return { role: "isolator" };
  if (what.includes("master")) return { role: "master" };
  return ["clutch switch", "seat switch", "guard switch"].some((w) => what.includes(w)) ? { role: "guard" } : {};
}

/**
 * What a guard stops, by the words of the case: a switch that "closes when" something is wrong takes away the spark of a
 * magneto where it is closed; a clutch switch keeps the starter from turning where it is open.
 */
function stopsOf({ what = "", closed }: SwitchPart, others: readonly CasePart[]): { stops?: Record<string, string[]> } {
  const positions = Object.keys(closed);
  const isClosed = (p: string): boolean => (closed[p] ?? []).length > 0;
  const at = (stands: readonly string[], parts: readonly CasePart[]) =>
    parts.length === 0 ? {} : { stops: Object.fromEntries(stands.map((p) => [p, parts.map(({ id }) => id)])) };
  if (what.includes("closes when"))
    return at(
      positions.filter(isClosed),
      others.filter((p) => (p.what ?? "").includes("no spark when")),
    );
  if (!what.includes("clutch switch")) return {};
  return at(
    positions.filter((p) => !isClosed(p)),
    others.filter((p) => p.kind === "load" && natureOf(p).kind === "starter"),
  );
}

function returnsOf(what: string, order: readonly string[]): { returns?: Record<string, string> } {
  const [rest, pressed] = order;
  return isMomentary(what) && rest !== undefined && pressed !== undefined ? { returns: { [pressed]: rest } } : {};
}
