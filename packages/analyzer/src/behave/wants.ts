import type { Latch } from "../circuit/circuit.ts";
import { byViewAlone, type Machine, pointOf } from "./machine.ts";
import type { State } from "./state.ts";
import type { Under } from "./under.ts";
import { isInstant, type Want, wantAt } from "./want.ts";

// What all latches that a machine moves want in a state.

/** Latches that change from here, and the first whose change depends on the specimen. */
export interface Wants {
  readonly changing: readonly number[];
  readonly split: { readonly latch: number; readonly change: number; readonly stay: number } | undefined;
}

const NONE_FROZEN: ReadonlySet<number> = new Set();
const NONE: readonly number[] = [];

/**
 * What the latches want in a state, remembered; those frozen are passed over. While something changes at once, nothing
 * else is asked: no time passes meanwhile, so nothing else can begin.
 */
export function wantsOf(machine: Machine, s: State, frozen: ReadonlySet<number> = NONE_FROZEN): Wants {
  const plain = frozen.size === 0;
  const known = plain ? machine.wants.get(s.key) : undefined;
  if (known !== undefined) return known;
  const { view } = machine;
  const wants = decided(machine, s, frozen, view?.under && knownBy(view.under, s, frozen));
  // What a view that lacks something decides is worth nothing.
  if (plain && !(view !== undefined && view.missing.size > 0)) machine.wants.set(s.key, wants);
  return wants;
}

/** What is known already, and the latches that are still to be decided. */
interface Known {
  readonly wants: Wants;
  readonly others: readonly number[];
}

/** By the search below, unless it lacks something for that. What it has taken as usual is decided again. */
function knownBy({ machine, stateIn, others }: Under, s: State, frozen: ReadonlySet<number>): Known | undefined {
  const wants = byViewAlone(machine, () => wantsOf(machine, stateIn(s), frozen));
  const again = machine.view?.asUsual;
  if (wants === undefined || again === undefined || again.size === 0) return wants && { wants, others };
  const { changing, split } = wants;
  // What changes at once hides what else would, and so does the first that the specimen decides.
  if (split !== undefined && again.has(split.latch)) return undefined;
  if (changing.some((l) => again.has(l) && isAtOnce(machine, l, s))) return undefined;
  return {
    wants: { changing: changing.filter((l) => !again.has(l)), split },
    others: [...others, ...again].sort((a, b) => a - b),
  };
}

const isAtOnce = ({ circuit }: Machine, latch: number, s: State): boolean =>
  isInstant(circuit.latches[latch] as Latch, s.latches[latch] === 0, s);

function decided(machine: Machine, s: State, frozen: ReadonlySet<number>, known: Known | undefined): Wants {
  const latches = known?.others ?? machine.latches;
  const first = known?.wants.changing[0] ?? known?.wants.split?.latch;
  const knownAtOnce = first !== undefined && isAtOnce(machine, first, s) ? known?.wants : undefined;
  const atOnce = together(knownAtOnce, wantsAmong(machine, s, latches, frozen, true));
  if (atOnce.changing.length > 0 || atOnce.split !== undefined) return atOnce;
  machine.view?.passed.push(s);
  return together(known?.wants, wantsAmong(machine, s, latches, frozen, false));
}

/** In the order of the latches. */
function together(known: Wants | undefined, own: Wants): Wants {
  if (known === undefined) return own;
  const [x, y] = [known.split, own.split];
  return {
    changing: own.changing.length === 0 ? known.changing : [...known.changing, ...own.changing].sort((a, b) => a - b),
    split: x === undefined || (y !== undefined && y.latch < x.latch) ? y : x,
  };
}

/** What those of these latches want that change at once, or those that do not. */
function wantsAmong(
  machine: Machine,
  s: State,
  latches: readonly number[],
  frozen: ReadonlySet<number>,
  atOnce: boolean,
): Wants {
  const { view } = machine;
  const wantOf = view === undefined ? wantsAt(machine, s) : view.wantsIn(machine, s, atOnce);
  let changing: number[] | undefined;
  let split: Wants["split"];
  for (const i of latches) {
    if (isAtOnce(machine, i, s) !== atOnce || frozen.has(i)) continue;
    const want = wantOf(i);
    if (want === "change") {
      changing ??= [];
      changing.push(i);
    } else if (want !== "stay") split ??= { latch: i, change: want.change, stay: want.stay };
  }
  return { changing: changing ?? NONE, split };
}

/** What each latch wants at the operating point of a state. */
function wantsAt(machine: Machine, s: State): (index: number) => Want {
  const { drives } = pointOf(machine, s);
  return (index) => wantAt(machine.circuit.latches[index] as Latch, s, index, drives[index] ?? 0);
}
