import { onState } from "../behave/loads.ts";
import { opened, pointOf } from "../behave/machine.ts";
import { oneRest, settleToRest } from "../behave/settle.ts";
import type { Slices } from "../behave/slices.ts";
import { coldState, type State, stateOf } from "../behave/state.ts";
import type { Circuit, Element, Latch, Load } from "../circuit/circuit.ts";
import { type Facts, type RunFacts, worksIn } from "../facts/facts.ts";
import { unprovenHolds } from "../facts/seal-in.ts";
import { stayingOn } from "../facts/staying-on.ts";
import { wiresAround } from "../facts/trace.ts";
import type { Sighting } from "../rules/rule.ts";
import { firstInSeries } from "./in-series.ts";

/** A smallest set of wires whose opening ends a hold, with the loads that then no longer work. */
export interface Cut {
  readonly wires: readonly string[];
  readonly elements: readonly number[];
  readonly stops: readonly string[];
}

export interface Cuts {
  /** Every load still works when asked. */
  readonly harmless: readonly Cut[];
  readonly breaking: readonly Cut[];
  /** Further sets that end it and stop more; not proved, so not told. */
  readonly untold: number;
}

/** What keeps itself going, as one run sees it. The first of a list is the one that is told. */
export interface Held {
  readonly run: RunFacts;
  /** The found state with the whole loom come to rest around it. */
  readonly state: State;
  /** Latches that are all on while it goes on. */
  readonly ring: readonly number[];
  /** Elements whose current keeps them on. */
  readonly fedBy: readonly number[];
  /** Contacts that are meant to hold it: cuts are sought for what holds it with these open. */
  readonly meant: readonly number[];
  /** Whether a latch of the ring takes part in anything like it that is not meant, in anything the loom can do. */
  readonly isIn: (run: RunFacts) => boolean;
}

/** A hold, or an engine that keeps itself running, as something to be cut; undefined for what is neither. */
export function heldBy({ run, hold, keeps, doubt }: Sighting): Held | undefined {
  if (run === undefined) return undefined;
  const { circuit } = run.machine;
  if (hold !== undefined) {
    const { state, ring } = hold;
    const fedBy = ring.flatMap((r) => {
      const { drive } = circuit.latches[r] as Latch;
      return drive.kind === "amp-turns" ? drive.windings.map((w) => w.element) : [];
    });
    const isIn = (r: RunFacts) => unprovenHolds(r, r.holdsAmong(ring)).length > 0;
    // Where a contact is meant to hold, what holds beside it.
    return { run, state, ring, fedBy, meant: doubt?.claim.contacts ?? [], isIn };
  }
  if (keeps === undefined) return undefined;
  const { state, engine, loads } = keeps;
  const fedBy = loads.filter((l) => engine.needs.includes(l.part)).map((l) => l.element);
  const isIn = (r: RunFacts) => stayingOn(r).some((s) => s.engine?.part === engine.part);
  return { run, state, ring: [engine.latch], fedBy, meant: [], isIn };
}

const MOST_WIRES = 3;
const MOST_TRIALS = 400;
const MOST_BREAKING = 3;

/**
 * Hitting-set tree: open a set, settle from the held state; if the hold is still there, branch on each wire of the
 * remaining holding path. Sets that contain a cut are skipped. The gentlest are then proved by walking everything the
 * loom can do with their wires open; only proved cuts are told. Method: Reiter, "A theory of diagnosis from first
 * principles", Artificial Intelligence 32 (1987) (from memory). Rests between proofs.
 */
export function* cutsOf(facts: Facts, held: readonly Held[]): Slices<Cuts> {
  const [told] = held;
  yield 0;
  if (told === undefined) return { harmless: [], breaking: [], untold: 0 };
  const ends = hittingSets(facts, held);
  const witnesses = witnessesOf(told.run);
  // Only the gentlest are told: of the others it is enough to know that they stop more.
  let least = Number.POSITIVE_INFINITY;
  const quick = bySeries(facts.circuit, (set) => stopsQuick(told, witnesses, set, least));
  const proof = bySeries(facts.circuit, (set) =>
    isProved(facts, told, set) ? stoppedBy(facts, told, set) : undefined,
  );
  const ranked = ends
    .map((set) => {
      const stops = quick(set);
      if (stops > 0) least = Math.min(least, stops);
      return { set, stops };
    })
    .sort((x, y) => x.stops - y.stops || x.set.length - y.set.length || (x.set[0] ?? 0) - (y.set[0] ?? 0));
  const cuts: Cut[] = [];
  let untold = 0;
  // Of those that stop something only the gentlest are told: nobody wants to stop more than need be.
  let gentlest: number | undefined;
  for (const [i, { set, stops }] of ranked.entries()) {
    yield i / ranked.length;
    const breaking = cuts.filter((c) => c.stops.length > 0).length;
    if (stops > 0 && (breaking >= MOST_BREAKING || stops > (gentlest ?? stops))) {
      untold++;
      continue;
    }
    const stopped = proof(set);
    if (stopped === undefined) continue;
    cuts.push({
      wires: set.map((w) => (facts.circuit.elements[w] as Element).owner.id),
      elements: set,
      stops: stopped,
    });
    if (stops > 0) gentlest ??= stops;
  }
  cuts.sort(
    (x, y) =>
      x.stops.length - y.stops.length || x.wires.length - y.wires.length || (x.elements[0] ?? 0) - (y.elements[0] ?? 0),
  );
  return {
    harmless: cuts.filter((c) => c.stops.length === 0),
    breaking: cuts.filter((c) => c.stops.length > 0),
    untold,
  };
}

/** Smallest sets of wires whose opening lets the ring go from the held state of every run. */
function hittingSets(facts: Facts, held: readonly Held[]): readonly (readonly number[])[] {
  const { circuit } = facts;
  const stateWith = (h: Held) => (set: readonly number[]) =>
    set.length + h.meant.length === 0 ? h.state : stillHeld(h, set);
  const heldIn = new Map(held.map((h) => [h, bySeries(circuit, stateWith(h))]));
  const ends: (readonly number[])[] = [];
  const tried = new Set<string>();
  let level: (readonly number[])[] = [[]];
  let trials = 0;
  // Three wires at once only where nothing less ends it.
  const most = () => (ends.length > 0 ? MOST_WIRES - 1 : MOST_WIRES);
  for (let size = 0; size <= most() && level.length > 0; size++) {
    const next: (readonly number[])[] = [];
    for (const set of level) {
      if (ends.some((cut) => cut.every((w) => set.includes(w))) || ++trials > MOST_TRIALS) continue;
      const still = held.map((h) => ({ h, state: heldIn.get(h)?.(set) })).find((x) => x.state !== undefined);
      if (still?.state === undefined) {
        ends.push(set);
        continue;
      }
      if (size >= most()) continue;
      for (const wire of pathWires(circuit, still.h, set, still.state)) {
        const larger = [...set, wire].sort((x, y) => x - y);
        if (tried.has(larger.join())) continue;
        tried.add(larger.join());
        next.push(larger);
      }
    }
    level = next;
  }
  return ends;
}

/** A rest state with the wires open in which the ring is still in; undefined if it let go in every order. */
function stillHeld({ run, state, ring, meant }: Held, open: readonly number[]): State | undefined {
  const machine = opened(run.machine, [...meant, ...open]);
  const isHeld = (s: State) => ring.every((r) => s.latches[r] === 1);
  const first = oneRest(machine, state);
  return first !== undefined && isHeld(first) ? first : settleToRest(machine, state).states.find(isHeld);
}

function pathWires(
  circuit: Circuit,
  { run, fedBy, meant }: Held,
  open: readonly number[],
  state: State,
): readonly number[] {
  const machine = opened(run.machine, [...meant, ...open]);
  const point = pointOf(machine, state);
  return [...new Set(fedBy.flatMap((e) => wiresAround(circuit, point, e)))].sort((x, y) => x - y);
}

/** Loads by where the inputs stand when they work, once each; nothing is remembered. */
interface Witness {
  readonly stands: Uint8Array;
  readonly loads: readonly Load[];
}

function witnessesOf(run: RunFacts): readonly Witness[] {
  const by = new Map<string, { readonly stands: Uint8Array; readonly loads: Load[] }>();
  for (const { load, stands } of worksIn(run)) {
    // Where others work too, one settling tells of all.
    const at = stands.find((s) => by.has(s.join())) ?? (stands[0] as Uint8Array);
    const known = by.get(at.join());
    if (known === undefined) by.set(at.join(), { stands: at, loads: [load] });
    else known.loads.push(load);
  }
  return [...by.values()];
}

/**
 * How many loads stop, from one cold start each, or more than `enough`: only to try the gentle cuts first. What is off
 * however the first and however the last of several goes on first is taken to stop; the proof settles in every order.
 */
function stopsQuick({ run }: Held, witnesses: readonly Witness[], open: readonly number[], enough: number): number {
  const machine = opened(run.machine, open);
  const { latches } = coldState(machine.circuit);
  let stops = 0;
  for (const { stands, loads } of witnesses) {
    const start = stateOf(stands, latches, new Uint8Array(latches.length));
    const isOff = (s: State | undefined) => (load: Load) =>
      s === undefined || onState(machine, s, pointOf(machine, s), load) !== "on";
    const off = loads.filter(isOff(oneRest(machine, start)));
    if (off.length > 0) stops += off.filter(isOff(oneRest(machine, start, { takesLast: true }))).length;
    if (stops > enough) break;
  }
  return stops;
}

const isProved = (facts: Facts, told: Held, open: readonly number[]): boolean =>
  !openedIn(facts, told, open).some(told.isIn);

const openedIn = (facts: Facts, { run }: Held, open: readonly number[]): readonly RunFacts[] =>
  facts.withOpen(open, new Set([run.run.id])).runs;

/** Parts with a load that no longer works. */
function stoppedBy(facts: Facts, told: Held, open: readonly number[]): readonly string[] {
  const stops = new Set<string>();
  for (const cut of openedIn(facts, told, open)) {
    const works = new Map(worksIn(cut).map((w) => [w.load, w]));
    for (const { load, stands } of worksIn(told.run))
      if (!stands.every((s) => works.get(load)?.at(s))) stops.add(load.part);
  }
  return [...stops].sort();
}

/** The same for sets of wires that are each in series with one of the other: opening one or the other is the same. */
export const seriesOf = (circuit: Circuit, set: readonly number[]): string =>
  set
    .map((i) => firstInSeries(circuit, i))
    .sort((x, y) => x - y)
    .join();

/** The same answer for sets of wires that are each in series with one of the other. */
function bySeries<T>(circuit: Circuit, answer: (set: readonly number[]) => T): (set: readonly number[]) => T {
  const known = new Map<string, { readonly is: T }>();
  return (set) => {
    const key = seriesOf(circuit, set);
    let same = known.get(key);
    if (same === undefined) {
      same = { is: answer(set) };
      known.set(key, same);
    }
    return same.is;
  };
}

/** What to do first, in words. What the rule advises stands where nothing can be opened, and where it breaks nothing. */
export function remedyOf(cuts: Cuts | undefined, { remedy, keeps }: Sighting): string {
  const [harmless] = cuts?.harmless ?? [];
  if (harmless !== undefined) return `Open ${harmless.wires.join(" and ")}: that ends it and breaks nothing.`;
  const [breaking] = cuts?.breaking ?? [];
  if (breaking === undefined || keeps !== undefined) return remedy;
  return `No wire can be opened without harm: opening ${breaking.wires.join(" and ")} ends it, but then ${breaking.stops.join(", ")} no longer works.`;
}
