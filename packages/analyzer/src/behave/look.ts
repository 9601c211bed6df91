import type { Element } from "../circuit/circuit.ts";
import { operate } from "../solve/operate.ts";
import type { On } from "./grade.ts";
import { noIslands, type SolvedIsland, type SolvedIslands } from "./island.ts";
import type { Agreed, Flows, Stage } from "./islands.ts";
import type { Asked } from "./loads.ts";
import type { Machine, View } from "./machine.ts";
import { logicIn, missingIn, type Sight, type Variable, YES } from "./scope.ts";
import type { State } from "./state.ts";
import { movers, type Trunk, tightened, trunkOf } from "./trunk.ts";

/** A view that decides island by island. */
export interface IslandView extends View {
  readonly shared: Shared;
  /** By state: with what is known of latches outside, and without. */
  readonly seen: { readonly known: Map<string, Seen>; readonly bare: Map<string, Seen> };
}

/** Trunks and islands solved so far in one run, for every scope. */
export interface Shared {
  readonly trunks: Map<string, Seen>;
  readonly islands: SolvedIslands;
}

export const sharing = (islands: SolvedIslands): Shared => ({ trunks: new Map(), islands });
export const emptyShared = (): Shared => sharing(noIslands());

/** What a scope can tell of which elements conduct, with what was asked of it. */
export interface Seen {
  readonly trunk: Trunk;
  /** Drives of latches, by latch. */
  readonly drives: Map<number, Drives>;
  /** Islands by their places in the trunk. */
  readonly islands: Map<string, SolvedIsland>;
  /** What loads do, by load and by where the latches are that judge it. */
  readonly loads: Map<string, Agreed<On>>;
  /** Designed feed and return with what is undecided open, and closed. */
  reached: readonly [Asked, Asked] | undefined;
  /** Loads whose being asked for is known, or what it hangs on. */
  readonly asked: Map<number, boolean | readonly number[]>;
  /** The same with its corners drawn together, once something hung on them. */
  tight: Seen | undefined;
}

const seenBy = (trunk: Trunk): Seen => ({
  trunk,
  drives: new Map(),
  islands: new Map(),
  loads: new Map(),
  reached: undefined,
  asked: new Map(),
  tight: undefined,
});

/** Costs one solve of the whole loom, once. */
export function tightOf(machine: Machine, seen: Seen): Seen {
  if (seen.tight === undefined) {
    const { trunk } = seen;
    const { volts } = operate(
      machine.network,
      trunk.closed.map((c) => (c === YES ? 1 : 0)),
    );
    machine.solves++;
    seen.tight = seenBy(tightened(machine.network, trunk, volts));
  }
  return seen.tight;
}

/** What drives a latch in every way its islands may be. */
export interface Drives {
  readonly flows: Flows;
  readonly values: (stage: Stage) => readonly number[];
}

/** Three-valued: which elements conduct, as far as the scope can tell. Remembered by state. */
export function seenIn(machine: Machine, view: IslandView, s: State, sight: Sight): Seen {
  const byState = sight === view ? view.seen.known : view.seen.bare;
  let seen = byState.get(s.pointKey);
  if (seen === undefined) {
    seen = lookAt(machine, view.shared, s, sight);
    byState.set(s.pointKey, seen);
  }
  return seen;
}

function lookAt(machine: Machine, { trunks }: Shared, s: State, sight: Sight): Seen {
  const { circuit } = machine;
  const closed = machine.always.slice();
  let key = "";
  let word = 0;
  let room = 7;
  for (const i of machine.switched) {
    const is = logicIn((circuit.elements[i] as Element).closed, s, sight);
    closed[i] = is;
    word = word * 3 + is;
    if (--room === 0) {
      key += String.fromCharCode(word);
      word = 0;
      room = 7;
    }
  }
  key += String.fromCharCode(word);
  let seen = trunks.get(key);
  if (seen === undefined) {
    seen = seenBy(trunkOf(machine.network, closed));
    trunks.set(key, seen);
  }
  return seen;
}

export function need(view: View, variables: readonly Variable[]): void {
  for (const v of variables) view.missing.add(v);
}

/** Variables outside the scope that leave these elements open. */
export const moversIn = (machine: Machine, s: State, elements: readonly number[], sight: Sight): readonly Variable[] =>
  elements.flatMap((i) => missingIn(machine.circuit, (machine.circuit.elements[i] as Element).closed, s, sight));

/**
 * Names what turns a decision, or else what moves the trunk most. Nothing is left to name where all is known; and where
 * the rest of the sag is taken as usual, it is not named.
 */
export function needFor(
  machine: Machine,
  view: IslandView,
  s: State,
  { trunk }: Seen,
  turned: readonly number[],
  sight: Sight,
): "named" | "all known" | "as usual" {
  const own = moversIn(machine, s, turned, sight);
  need(view, own);
  if (own.length > 0) return "named";
  const sagging = moversIn(machine, s, movers(machine.network, trunk)[0] ?? [], sight);
  if (sagging.length === 0) return "all known";
  if (view.sagAsUsual && trunk.shorted === undefined) return "as usual";
  need(view, sagging);
  for (const v of sagging) view.bySag.add(v);
  return "named";
}
