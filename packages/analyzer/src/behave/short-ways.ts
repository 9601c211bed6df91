import type { Circuit, Element } from "../circuit/circuit.ts";
import { elementsAt } from "./feed.ts";
import { latchVariable, type Variable } from "./scope.ts";

/** Ways beyond this many are not told apart: a loom with so many has its shorts found in the first. */
const MOST_WAYS = 64;
const MOST_STEPS = 100_000;

/** Ways from a feed pole to its own return through conductors and gates alone, each as what moves its gates. */
export function shortWays(circuit: Circuit): readonly (readonly Variable[])[] {
  const ways = new Map<string, readonly Variable[]>();
  let steps = 0;
  const walk = (node: number, goal: number, been: Set<number>, moved: readonly Variable[]): void => {
    if (ways.size >= MOST_WAYS || ++steps > MOST_STEPS) return;
    if (node === goal) {
      const list = [...new Set(moved)].sort((a, b) => a - b);
      ways.set(list.join(), list);
      return;
    }
    for (const { far, element } of onwards(circuit, node)) {
      if (been.has(far)) continue;
      been.add(far);
      walk(far, goal, been, [...moved, ...moversOf(circuit, element)]);
      been.delete(far);
    }
  };
  for (const pole of circuit.poles) {
    if (pole.way !== "feed") continue;
    for (const back of circuit.poles)
      if (back.way === "return" && back.source === pole.source && meets(circuit, pole.node, back.node))
        walk(pole.node, back.node, new Set([pole.node]), []);
  }
  return [...ways.values()];
}

function* onwards(circuit: Circuit, node: number): Generator<{ readonly far: number; readonly element: Element }> {
  for (const i of elementsAt(circuit)[node] ?? []) {
    const element = circuit.elements[i] as Element;
    if (element.series || (element.class !== "conductor" && element.class !== "gate")) continue;
    if (element.oneWay && element.a !== node) continue;
    yield { far: element.a === node ? element.b : element.a, element };
  }
}

function moversOf(circuit: Circuit, e: Element): readonly Variable[] {
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
