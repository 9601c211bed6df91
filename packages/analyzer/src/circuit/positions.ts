import type { Pair, Span } from "@loomproof/netlist";
import type { Input, Logic, Move } from "./circuit.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";

// Key switches and other switches: one input, its stands, and a gate for each pair of terminals that some stand joins.

interface Contacts {
  readonly positions: readonly string[];
  readonly joins: Readonly<Record<string, readonly Pair[]>>;
  readonly between: Readonly<Record<string, "break-first" | "make-first">>;
  readonly passing: Span;
  readonly contactOhms: number;
  readonly returns: Readonly<Record<string, string>>;
  readonly isKey: boolean;
  readonly isMain?: boolean;
}

/** What people call the position of a key that cranks, if it is not said to spring back: common practice, no source. */
const CRANKS = /^(crank|start)/i;

const pairKey = ([x, y]: Pair): string => (x < y ? `${x}\n${y}` : `${y}\n${x}`);
const same = (x: ReadonlySet<string>, y: ReadonlySet<string>): boolean =>
  x.size === y.size && [...x].every((k) => y.has(k));

/**
 * Puts a switch into the circuit and gives the input that moves it. When a world input does, its positions follow that
 * input's values.
 */
export function putSwitch(door: Door, contacts: Contacts, context: Context): number {
  const { positions } = contacts;
  const sets = positions.map((p) => new Set((contacts.joins[p] ?? []).map(pairKey)));
  const stands = [...positions];
  const moves: Move[] = [];
  for (let i = 0; i + 1 < positions.length; i++) {
    const [here, next] = [sets[i] ?? new Set<string>(), sets[i + 1] ?? new Set<string>()];
    const [from, to] = [positions[i] ?? "", positions[i + 1] ?? ""];
    const how = contacts.between[`${from}>${to}`] ?? contacts.between[`${to}>${from}`] ?? "break-first";
    const passing = new Set(how === "make-first" ? [...here, ...next] : [...here].filter((k) => next.has(k)));
    let via: number | undefined;
    if (!same(passing, here) && !same(passing, next)) {
      via = stands.push(`${from}~${to}`) - 1;
      sets[via] = passing;
    }
    moves.push(
      { from: i, to: i + 1, via, seconds: contacts.passing },
      { from: i + 1, to: i, via, seconds: contacts.passing },
    );
  }
  const { index, closedWhen } = closing(door, context, stands, sets, moves, contacts);
  const pairs = new Map(
    positions.flatMap((p) => (contacts.joins[p] ?? []).map((pair) => [pairKey(pair), pair] as const)),
  );
  for (const [key, [x, y]] of pairs)
    door.gate({
      from: door.terminal(x),
      to: door.terminal(y),
      says: "contact",
      ohms: contacts.contactOhms,
      closed: closedWhen(key),
    });
  return index;
}

function closing(
  door: Door,
  { mover }: Context,
  stands: readonly string[],
  sets: readonly ReadonlySet<string>[],
  moves: readonly Move[],
  { positions, returns, isKey, isMain }: Contacts,
): { readonly index: number; readonly closedWhen: (pair: string) => Logic } {
  const moved = mover(door.part);
  const input: Input = {
    id: door.part,
    kind: "switch",
    label: door.label,
    stands,
    positions: positions.length,
    usual: 0,
    moves,
    module: undefined,
    heededBy: undefined,
    isKey,
    isMain,
    cranks: isKey ? positions.flatMap((p, i) => (p in returns || CRANKS.test(p) ? [i] : [])) : [],
    springs: positions.flatMap((p, i) => (p in returns ? [i] : [])),
  };
  const index = moved === undefined ? door.input(input) : moved.index;
  const count = moved === undefined ? stands.length : moved.input.stands.length;
  const closedWhen = (pair: string): Logic => {
    const closed = Array.from({ length: count }, (_, s) => sets[Math.min(s, sets.length - 1)]?.has(pair) ?? false);
    return [[{ negated: false, literals: [{ kind: "input", input: index, stands: closed }] }]];
  };
  return { index, closedWhen };
}

/** Moves from each of `count` positions to each other, at once. */
export const freely = (count: number): readonly Move[] => {
  const positions = Array.from({ length: count }, (_, p) => p);
  return positions.flatMap((from) =>
    positions.filter((to) => to !== from).map((to) => ({ from, to, via: undefined, seconds: { least: 0, most: 0 } })),
  );
};
