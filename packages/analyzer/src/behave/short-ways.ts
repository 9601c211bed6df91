import { ALWAYS, type Circuit, type Element, type Literal } from "../circuit/circuit.ts";
import { piecesOf } from "../circuit/curve.ts";
import { elementsAt } from "./feed.ts";
import { latchVariable, type Variable } from "./scope.ts";

/** Ways beyond this many are not told apart: a loom with so many has its shorts found in the first. */
const MOST_WAYS = 64;
const MOST_STEPS = 100_000;
const FULL_VOLTS = 12;
const MUCH_AMPS = 1;

/** A way from a feed pole to its own return: its gates, and what moves them. */
export interface ShortWay {
  readonly gates: readonly number[];
  readonly movers: readonly Variable[];
  /** Through conductors and gates alone; else through a stray diode as well, which is no short but drains the feed. */
  readonly isShort: boolean;
}

const cache = new WeakMap<Circuit, readonly ShortWay[]>();

/**
 * Ways from a feed pole to its own return past every load. None that wants one contact both ways at
 * once, such as from the make to the break side of a changeover.
 */
export function shortWays(circuit: Circuit): readonly ShortWay[] {
  let ways = cache.get(circuit);
  if (ways === undefined) {
    ways = findWays(circuit);
    cache.set(circuit, ways);
  }
  return ways;
}

function findWays(circuit: Circuit): readonly ShortWay[] {
  const ways = new Map<string, ShortWay>();
  let steps = 0;
  const walk = (node: number, goal: number, been: Set<number>, passed: readonly number[], isShort: boolean): void => {
    if (ways.size >= MOST_WAYS || ++steps > MOST_STEPS) return;
    if (node === goal) {
      const gates = passed.toSorted((a, b) => a - b);
      const movers = [...new Set(gates.flatMap((g) => moversOf(circuit.elements[g] as Element, circuit)))];
      ways.set(gates.join(), { gates, movers: movers.sort((a, b) => a - b), isShort });
      return;
    }
    for (const { far, element } of onwards(circuit, node)) {
      const e = circuit.elements[element] as Element;
      if (been.has(far) || passed.some((g) => excludes(circuit.elements[g] as Element, e))) continue;
      been.add(far);
      walk(far, goal, been, e.closed === ALWAYS ? passed : [...passed, element], isShort && e.class !== "stray");
      been.delete(far);
    }
  };
  for (const pole of circuit.poles) {
    if (pole.way !== "feed") continue;
    for (const back of circuit.poles)
      if (back.way === "return" && back.source === pole.source && meets(circuit, pole.node, back.node))
        walk(pole.node, back.node, new Set([pole.node]), [], true);
  }
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
  if (e.class !== "stray" || e.curve === undefined) return false;
  const piece = piecesOf(e.curve.most).find((p) => FULL_VOLTS <= p.to);
  return e.a === node && piece !== undefined && piece.amps0 + piece.siemens * FULL_VOLTS > MUCH_AMPS;
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

function moversOf(e: Element, circuit: Circuit): readonly Variable[] {
  return e.closed
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
