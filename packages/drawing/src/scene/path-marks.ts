import { type ResolvedLoom, terminalText } from "@loomproof/netlist";
import type { DrawnState } from "../symbols/symbol.ts";
import type { Marks, Sleeve } from "./items.ts";

/** A path of current with what is known along it. Knows nothing of findings. */
export interface LitPath {
  /** Terminals in the direction of the current. */
  readonly path: readonly string[];
  /** Volts of terminals over the reference. */
  readonly volts: Readonly<Record<string, number>>;
  /** The part that the ring goes round. */
  readonly ring: string | undefined;
  readonly inputs: Readonly<Record<string, string>>;
  readonly partsIn: readonly string[];
  readonly partsOn: readonly string[];
  /** What else is told of: wires and parts that need not be on the path. */
  readonly also: readonly string[];
}

export interface StandingState {
  readonly inputs: Readonly<Record<string, string>>;
  readonly partsIn: readonly string[];
  readonly partsOn: readonly string[];
  /** Volts of all terminals over the reference; null where nothing holds one. */
  readonly volts: Readonly<Record<string, number | null>>;
  /** The part that the ring goes round. */
  readonly ring: string | undefined;
}

const AT_FEED = 0.5;
const AT_GROUND = 0.3;
/** Tags stand at the places that decide: where the volts change by more than this. */
const TAG_STEP = 1;

/** What to light for a path: its wires and parts, how each wire stands, and a few volt tags. */
export function pathMarks(loom: ResolvedLoom, lit: LitPath): Marks {
  const sleeveAt = sleevesBy(Object.values(lit.volts));
  const wires = loom.wires.filter((w) => {
    const [a, b] = [lit.path.indexOf(terminalText(w.from)), lit.path.indexOf(terminalText(w.to))];
    return a >= 0 && b >= 0 && Math.abs(a - b) === 1;
  });
  const states = Object.fromEntries(
    wires.flatMap((w) => {
      const v = lit.volts[terminalText(w.from)] ?? lit.volts[terminalText(w.to)];
      return v === undefined ? [] : [[w.id, sleeveAt(v)] as const];
    }),
  );
  const parts = new Set(lit.path.map((t) => t.slice(0, t.indexOf("."))));
  if (lit.ring !== undefined) parts.add(lit.ring);
  return {
    path: [...wires.map((w) => w.id), ...parts, ...lit.also],
    states,
    volts: tags(lit, sleeveAt),
    steps: steps(loom, lit.path),
    ring: lit.ring,
    parts: drawnParts(loom, lit),
  };
}

/** The whole loom as it stands in one state: every wire, every contact, every load; nothing drops back. */
export function standingMarks(loom: ResolvedLoom, state: StandingState): Marks {
  const sleeveAt = sleevesBy(Object.values(state.volts).filter((v) => v !== null));
  const ends = ({ from, to }: ResolvedLoom["wires"][number]) =>
    [from, to].map((t) => state.volts[terminalText(t)]).filter((v) => v !== undefined);
  const states = loom.wires.flatMap((w) => {
    const [v] = ends(w);
    return v === undefined ? [] : [[w.id, v === null ? "float" : sleeveAt(v)] as const];
  });
  return { states: Object.fromEntries(states), ring: state.ring, parts: drawnParts(loom, state) };
}

function sleevesBy(volts: readonly number[]): (v: number) => Sleeve {
  const top = volts.reduce((most, v) => Math.max(most, v), 0);
  return (v) => (v >= top - AT_FEED ? "feed" : v <= AT_GROUND ? "ground" : "between");
}

function drawnParts(
  loom: ResolvedLoom,
  { inputs, partsIn, partsOn }: Pick<LitPath, "inputs" | "partsIn" | "partsOn">,
): Readonly<Record<string, DrawnState>> {
  const drawn: Record<string, DrawnState> = {};
  for (const part of loom.parts) {
    const position = inputs[part.id] ?? positionOf(loom, part.id, inputs);
    drawn[part.id] = {
      isIn: partsIn.includes(part.id),
      isOn: partsOn.includes(part.id),
      ...(position === undefined ? {} : { position }),
    };
  }
  return drawn;
}

/** A switch that a world input moves stands as that input does. */
function positionOf(loom: ResolvedLoom, id: string, inputs: LitPath["inputs"]): string | undefined {
  const world = loom.world.find((w) => w.moves.includes(id));
  const part = loom.parts.find((p) => p.id === id);
  if (world === undefined || part?.family !== "switch") return undefined;
  const positions = part.values.positions ?? Object.keys(part.values.joins ?? { open: [], closed: [] });
  return positions[world.values.indexOf(inputs[world.id] ?? world.usual)];
}

function tags(lit: LitPath, sleeveAt: (v: number) => Sleeve): NonNullable<Marks["volts"]> {
  let last = Number.NaN;
  return lit.path.flatMap((at) => {
    const v = lit.volts[at];
    if (v === undefined || Math.abs(v - last) < TAG_STEP) return [];
    last = v;
    return [{ at, text: `${(Math.abs(v) < 0.05 ? 0 : v).toFixed(1)}\u00a0V`, sleeve: sleeveAt(v) }];
  });
}

const MOST_STEPS = 7;

/** Where the path enters each part that is drawn as one; back at its source it has been everywhere. */
function steps(loom: ResolvedLoom, path: readonly string[]): readonly string[] {
  const partOf = (terminal: string) => terminal.slice(0, terminal.indexOf("."));
  const joints = new Set(
    loom.parts.filter((p) => p.family === "splice" || p.family === "ground-point").map((p) => p.id),
  );
  return path
    .filter((t, i) => !joints.has(partOf(t)) && (i === 0 || partOf(path[i - 1] ?? "") !== partOf(t)))
    .filter((t, i) => i === 0 || partOf(t) !== partOf(path[0] ?? ""))
    .slice(0, MOST_STEPS);
}
