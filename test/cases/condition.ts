import type { CaseCondition } from "./case-types.ts";
import { volts } from "./quantities.ts";

// Conditions of a case (nested all / any / not) as a condition of a module definition: a list of alternatives, each a
// set of things that must all be true.

type Leaf = Exclude<
  CaseCondition,
  { not: CaseCondition } | { all: readonly CaseCondition[] } | { any: readonly CaseCondition[] }
>;
interface Literal {
  readonly leaf: Leaf;
  readonly is: boolean;
}

/** One set of our condition text. */
interface AtomSet {
  input?: Record<string, string>;
  state?: Record<string, boolean>;
  volts?: { between: [string, string]; above: string; below: string };
}
export interface Alternative extends AtomSet {
  not?: AtomSet[];
}

/** The alternatives of a condition, and what the format cannot say of it. `pinOf` gives the pin of a terminal name. */
export function convertCondition(
  condition: CaseCondition,
  pinOf: (terminal: string) => string,
  why: string[],
): Alternative[] {
  return alternatives(condition, true).map((literals) => alternativeOf(literals, pinOf, why));
}

/** Disjunctive normal form: negation moved to the leaves, "any" on the outside. */
function alternatives(condition: CaseCondition, is: boolean): readonly (readonly Literal[])[] {
  if ("not" in condition) return alternatives(condition.not, !is);
  if ("all" in condition) return is ? every(condition.all, is) : some(condition.all, is);
  if ("any" in condition) return is ? some(condition.any, is) : every(condition.any, is);
  return [[{ leaf: condition, is }]];
}

const some = (list: readonly CaseCondition[], is: boolean) => list.flatMap((c) => alternatives(c, is));
const every = (list: readonly CaseCondition[], is: boolean) =>
  list.reduce<readonly (readonly Literal[])[]>(
    (sets, c) => sets.flatMap((set) => alternatives(c, is).map((more) => [...set, ...more])),
    [[]],
  );

/** Keys in the order in which the format has them. */
function alternativeOf(literals: readonly Literal[], pinOf: (terminal: string) => string, why: string[]): Alternative {
  const input: Record<string, string> = {};
  const state: Record<string, boolean> = {};
  const thresholds: AtomSet[] = [];
  const not: AtomSet[] = [];
  for (const { leaf, is } of literals) {
    if ("logic" in leaf) state[leaf.logic] = is;
    else if (!is) not.push(atomOf(leaf, pinOf));
    else if ("input" in leaf) input[leaf.input] = leaf.is;
    else thresholds.push(atomOf(leaf, pinOf));
  }
  if (thresholds.length > 1) why.push("two voltage thresholds in one alternative of a condition");
  return {
    ...(Object.keys(input).length > 0 ? { input } : {}),
    ...(Object.keys(state).length > 0 ? { state } : {}),
    ...thresholds[0],
    ...(not.length > 0 ? { not } : {}),
  };
}

function atomOf(leaf: Exclude<Leaf, { logic: string }>, pinOf: (terminal: string) => string): AtomSet {
  if ("input" in leaf) return { input: { [leaf.input]: leaf.is } };
  const [from, to] = leaf.volts;
  return { volts: { between: [pinOf(from), pinOf(to)], above: volts(leaf.above), below: volts(leaf.below) } };
}
