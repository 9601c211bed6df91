import { ALWAYS, type Circuit, type Element, type Literal, type Pole } from "../circuit/circuit.ts";
import { pieceAt, piecesOf } from "../circuit/curve.ts";
import { elementsAt } from "./feed.ts";
import { latchVariable, type Variable } from "./scope.ts";

/** Ways beyond this many are not told apart: a loom with so many has its shorts found in the first. */
const MOST_WAYS = 64;
const MOST_STEPS = 100_000;
const FULL_VOLTS = 12;
const MUCH_AMPS = 1;

/** A way between two poles past every load: its gates, and what moves them. */
export interface PoleWay {
  readonly gates: readonly number[];
  readonly movers: readonly Variable[];
  /** `short`: feed to its own return. `drain`: the same through a stray diode. `meeting`: feed to the feed of another. */
  readonly kind: "short" | "drain" | "meeting";
}

const cache = new WeakMap<Circuit, readonly PoleWay[]>();

/**
 * Ways from a feed pole to its own return, or to the feed pole of another source, through conductors and gates alone.
 * None that wants one contact both ways at once, such as from the make to the break side of a changeover.
 */
export function poleWays(circuit: Circuit): readonly PoleWay[] {
  let ways = cache.get(circuit);
  if (ways === undefined) {
    const feeds = circuit.poles.filter((p) => p.way === "feed");
    ways = [
      ...feeds.flatMap((feed) =>
        circuit.poles
          .filter((p) => p.way === "return" && p.source === feed.source)
          .flatMap((back) => waysBetween(circuit, feed.node, back.node, "short")),
      ),
      ...feeds.flatMap((one, i) =>
        feeds
          .slice(i + 1)
          .filter((two) => partOf(circuit, two) !== partOf(circuit, one))
          .flatMap((two) =>
            waysBetween(circuit, one.node, two.node, "meeting").map((way) => ({
              ...way,
              movers: inOrder([...way.movers, ...moversOf(circuit, one.source), ...moversOf(circuit, two.source)]),
            })),
          ),
      ),
    ];
    cache.set(circuit, ways);
  }
  return ways;
}

const partOf = (circuit: Circuit, pole: Pole): string => (circuit.elements[pole.source] as Element).owner.id;
const inOrder = (list: readonly number[]): readonly number[] => [...new Set(list)].sort((a, b) => a - b);

function waysBetween(circuit: Circuit, from: number, goal: number, kind: "short" | "meeting"): readonly PoleWay[] {
  if (!meets(circuit, from, goal)) return [];
  const ways = new Map<string, PoleWay>();
  let steps = 0;
  const walk = (node: number, been: Set<number>, passed: readonly number[], isBare: boolean): void => {
    if (ways.size >= MOST_WAYS || ++steps > MOST_STEPS) return;
    if (node === goal) {
      const gates = inOrder(passed);
      const movers = inOrder(gates.flatMap((g) => moversOf(circuit, g)));
      ways.set(gates.join(), { gates, movers, kind: isBare ? kind : "drain" });
      return;
    }
    for (const { far, element } of onwards(circuit, node)) {
      const e = circuit.elements[element] as Element;
      if (been.has(far) || passed.some((g) => excludes(circuit.elements[g] as Element, e))) continue;
      if (kind === "meeting" && e.class === "stray") continue;
      been.add(far);
      walk(far, been, e.closed === ALWAYS ? passed : [...passed, element], isBare && e.class !== "stray");
      been.delete(far);
    }
  };
  walk(from, new Set([from]), [], true);
  return [...ways.values()];
}

function* onwards(circuit: Circuit, node: number): Generator<{ readonly far: number; readonly element: number }> {
  for (const element of elementsAt(circuit)[node] ?? []) {
    const e = circuit.elements[element] as Element;
    if (e.series || (e.class !== "conductor" && e.class !== "gate" && !drains(e, node))) continue;
    if (e.oneWay && e.a !== node) continue;
    yield { far: e.a === node ? e.b : e.a, element };
  }
}

/** A stray diode that takes much from this node at full volts. */
function drains(e: Element, node: number): boolean {
  if (e.class !== "stray" || e.curve === undefined || e.a !== node) return false;
  const piece = pieceAt(piecesOf(e.curve.most), FULL_VOLTS);
  return piece.amps0 + piece.siemens * FULL_VOLTS > MUCH_AMPS;
}

/** Literals of a gate that closes in one way only; else undefined. */
function literalsOf(e: Element): readonly Literal[] | undefined {
  const [sets, ...others] = e.closed;
  if (sets === undefined || others.length > 0 || sets.some((s) => s.negated)) return undefined;
  return sets.flatMap((s) => s.literals);
}

/** Two gates that are never closed together, whatever the state. */
function excludes(x: Element, y: Element): boolean {
  const others = literalsOf(y) ?? [];
  return (literalsOf(x) ?? []).some((l) => others.some((o) => contradicts(l, o)));
}

function contradicts(l: Literal, o: Literal): boolean {
  if (l.kind === "latch") return o.kind === "latch" && o.latch === l.latch && o.is !== l.is;
  if (l.kind === "input")
    return o.kind === "input" && o.input === l.input && !l.stands.some((s, i) => s && o.stands[i]);
  return false;
}

function moversOf(circuit: Circuit, element: number): readonly Variable[] {
  return (circuit.elements[element] as Element).closed
    .flat()
    .flatMap((set) => set.literals)
    .flatMap((l) => (l.kind === "latch" ? [latchVariable(circuit, l.latch)] : l.kind === "input" ? [l.input] : []));
}

/** Whether they could meet at all; in most looms a load lies on every way. */
function meets(circuit: Circuit, from: number, to: number): boolean {
  const seen = new Set([from]);
  const open = [from];
  for (let n = open.pop(); n !== undefined; n = open.pop()) {
    if (n === to) return true;
    for (const { far } of onwards(circuit, n))
      if (!seen.has(far)) {
        seen.add(far);
        open.push(far);
      }
  }
  return false;
}
