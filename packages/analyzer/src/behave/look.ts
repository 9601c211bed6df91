import type { Element } from "../circuit/circuit.ts";
import { bayOf, type Probe } from "./bay.ts";
import { islandIn, type SolvedIsland } from "./island.ts";
import { textOf } from "./key-text.ts";
import { type Gating, type Machine, operatedIn, type View } from "./machine.ts";
import { isSeen, logicIn, missingIn, type Sight, type Variable, YES } from "./scope.ts";
import type { State } from "./state.ts";
import { topologyOf } from "./topology.ts";
import { movers, type Trunk, tightened, trunkOf } from "./trunk.ts";

/** A view that decides island by island. */
export interface IslandView extends View {
  /** With what is known of latches outside, and without. */
  readonly seen: { readonly known: Looks; readonly bare: Looks };
}

interface Looks {
  /** What was seen, by state. */
  readonly byState: Map<string, Seen>;
  /** Once looked. */
  moving: Moving | undefined;
}

/** What can conduct in one state and not in another, by its number; and how the rest conducts. */
interface Moving {
  readonly gatings: readonly number[];
  readonly ways: Uint8Array;
}

export const noLooks = (): Looks => ({ byState: new Map(), moving: undefined });

/** Gatings whose three ways fit into one character of a key. */
const WAYS_A_CODE = 9;

/** What a scope can tell of which elements conduct. */
export interface Seen {
  readonly trunk: Trunk;
  /** The islands that each probe touches, by its number. */
  readonly islands: Map<number, SolvedIsland>;
  /** The same with its corners drawn together, once something hung on them. */
  tight: Seen | undefined;
}

const seenBy = (trunk: Trunk): Seen => ({ trunk, islands: new Map(), tight: undefined });

/** The islands that a probe touches, as one; undefined if nothing bounds them. */
export function islandAt(machine: Machine, seen: Seen, probe: Probe): SolvedIsland | undefined {
  const { topology } = seen.trunk;
  if (topology.shorted !== undefined) return undefined;
  let island = seen.islands.get(probe.id);
  if (island === undefined) {
    island = islandIn(machine.network, seen.trunk, bayOf(machine.circuit, topology, probe));
    seen.islands.set(probe.id, island);
  }
  return island;
}

/** Costs one solve of the whole loom. */
export function tightOf(machine: Machine, seen: Seen): Seen {
  if (seen.tight === undefined) {
    const { trunk } = seen;
    const { volts } = operatedIn(
      machine,
      trunk.topology.closed.map((c) => (c === YES ? 1 : 0)),
    );
    seen.tight = seenBy(tightened(machine.network, trunk, volts));
  }
  return seen.tight;
}

/** Three-valued: which elements conduct, as far as the scope can tell. Remembered by state. */
export function seenIn(machine: Machine, view: IslandView, s: State, sight: Sight): Seen {
  const looks = sight === view ? view.seen.known : view.seen.bare;
  let seen = looks.byState.get(s.pointKey);
  if (seen === undefined) {
    looks.moving ??= movingIn(machine, s, sight);
    seen = lookAt(machine, waysIn(machine, s, sight, looks.moving));
    looks.byState.set(s.pointKey, seen);
  }
  return seen;
}

function movingIn({ gatings }: Machine, s: State, sight: Sight): Moving {
  return {
    gatings: [...gatings.keys()].filter((k) => isSeen((gatings[k] as Gating).logic, sight)),
    ways: Uint8Array.from(gatings, ({ logic }) => logicIn(logic, s, sight)),
  };
}

/** Three-valued: how each gating conducts. */
function waysIn({ gatings }: Machine, s: State, sight: Sight, moving: Moving): Uint8Array {
  const ways = moving.ways.slice();
  for (const k of moving.gatings) ways[k] = logicIn((gatings[k] as Gating).logic, s, sight);
  return ways;
}

function lookAt(machine: Machine, ways: Uint8Array): Seen {
  const { circuit, gatings, trunks } = machine;
  const codes: number[] = [];
  let word = 0;
  for (let k = 0; k < ways.length; k++) {
    word = word * 3 + (ways[k] as number);
    if (k % WAYS_A_CODE === WAYS_A_CODE - 1) {
      codes.push(word);
      word = 0;
    }
  }
  codes.push(word);
  const key = textOf(codes);
  let seen = trunks.get(key);
  if (seen === undefined) {
    const closed = machine.always.slice();
    gatings.forEach(({ elements }, k) => {
      for (const i of elements) closed[i] = ways[k] as number;
    });
    const topology = topologyOf(circuit, `${machine.absentKey}|${key}`, closed);
    seen = seenBy(trunkOf(machine.network, topology));
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
  if (view.sagAsUsual && trunk.topology.shorted === undefined) return "as usual";
  need(view, sagging);
  for (const v of sagging) view.bySag.add(v);
  return "named";
}
