import { setOff } from "../behave/advance.ts";
import type { Edge, Search, WorldMove } from "../behave/explore.ts";
import { apart, type Event, eventsOf, type Flight } from "../behave/flight.ts";
import type { Course } from "../behave/follow.ts";
import { byViewAlone } from "../behave/machine.ts";
import { settleToRest } from "../behave/settle.ts";
import { END, type State } from "../behave/state.ts";
import type { Circuit } from "../circuit/circuit.ts";
import type { RunFacts } from "./facts.ts";
import { type Turn, turnsFrom } from "./turns.ts";

/** Two moves on their way together: which lands first decides where all comes to rest. */
export interface Race {
  readonly from: number;
  readonly move: WorldMove;
  /** What lands in one order and in the other. */
  readonly one: Event;
  readonly other: Event;
  /** Seconds by which the first can be ahead of the second, and the second of the first, at most. */
  readonly ahead: number;
  readonly behind: number;
  /** Latches that end one way or the other, ascending. */
  readonly decides: readonly number[];
  /** The moment that decides, and what happened before. */
  readonly state: State;
  readonly before: readonly Event[];
}

/** One race for each move that can come to rest in more than one way, by times alone. */
export function racesIn(run: RunFacts): readonly Race[] {
  return run.reachable.searches.flatMap((search) => [...racesOf(run, search)]);
}

function* racesOf(run: RunFacts, search: Search): Generator<Race> {
  const { circuit } = run.machine;
  if (search.machine.latches.length < 2) return;
  for (const [from, edges] of manyEnded(run, search)) {
    const asked = (_: State, move: WorldMove) => edges.some((e) => isSameMove(e.move, move));
    for (const turn of turnsFrom(run, search, from, { hand: "slow", asked })) {
      const race = raceOn(circuit, turn);
      if (race !== undefined) yield race;
    }
  }
}

const isSameMove = (x: WorldMove, y: WorldMove): boolean => JSON.stringify(x) === JSON.stringify(y);

/** Moves from one state that land in several, whichever end of its spread each relay is at; by the state. */
function manyEnded({ reachable }: RunFacts, { first, end }: Search): ReadonlyMap<number, readonly Edge[]> {
  const landings = new Map<WorldMove, Edge[]>();
  for (const e of reachable.edges)
    if (e.to >= first && e.to < end && e.from >= first) {
      const list = landings.get(e.move);
      if (list === undefined) landings.set(e.move, [e]);
      else list.push(e);
    }
  const many = new Map<number, Edge[]>();
  for (const edges of landings.values()) {
    const [one] = edges;
    if (one === undefined || new Set(edges.map((e) => e.to)).size < 2) continue;
    many.set(one.from, [...(many.get(one.from) ?? []), one]);
  }
  return many;
}

/** Where each moment can come to rest, by what is in then; what went through too late left out: it blurs who won. */
type Ends = readonly ReadonlySet<string>[];

function raceOn(circuit: Circuit, { machine, course, from, move }: Turn): Race | undefined {
  const seen = seenLatches(circuit);
  const rests = new Map<string, string>();
  const restOf = (s: State): string => {
    let rest = rests.get(s.key);
    if (rest === undefined) {
      rest = settleToRest(machine, s)
        .states.map((r) => seen.map((l) => r.latches[l]).join(""))
        .sort()
        .join("|");
      rests.set(s.key, rest);
    }
    return rest;
  };
  const ends = byViewAlone(machine, () => endsOf(course, restOf));
  if (ends === undefined) return undefined;
  for (const [at, { flight, next }] of course.moments.entries()) {
    if ((ends[at] as ReadonlySet<string>).size < 2) continue;
    const set = setOff(machine, flight);
    if (set === undefined) continue;
    const sure = next.flatMap((n) => {
      const [end, ...others] = ends[n] as ReadonlySet<string>;
      const event = course.moments[n]?.flight.events?.event;
      // One end, and one way to rest in it.
      const isSure = end !== undefined && others.length === 0 && !end.includes("|");
      return isSure && event !== undefined ? [{ n, event, end }] : [];
    });
    for (const [k, one] of sure.entries())
      for (const other of sure.slice(k + 1)) {
        if (one.end === other.end || !agreeOnEnds(course, one.n, other.n)) continue;
        const race = between(set, one.event, other.event);
        if (race !== undefined)
          return { ...race, from, move, decides: seen.filter((_, i) => one.end[i] !== other.end[i]) };
      }
  }
  return undefined;
}

/** What a person would see of a state: relays, and what wakes and runs. */
const seenLatches = ({ latches }: Circuit): readonly number[] =>
  latches.flatMap((l, i) => (l.kind === "armature" || l.kind === "awake" ? [i] : []));

function endsOf({ moments }: Course, restOf: (s: State) => string): Ends {
  const ends = moments.map(({ flight, isLanded }) => new Set(isLanded ? [restOf(flight.state)] : []));
  for (let grows = true; grows; ) {
    grows = false;
    for (let at = moments.length - 1; at >= 0; at--) {
      const own = ends[at] as Set<string>;
      const before = own.size;
      for (const n of moments[at]?.next ?? []) for (const e of ends[n] as Set<string>) own.add(e);
      grows ||= own.size > before;
    }
  }
  return ends;
}

/** Two histories of the same relays: none is at one end of its spread here and at the other there. */
function agreeOnEnds({ moments }: Course, one: number, other: number): boolean {
  const [x, y] = [moments[one]?.flight.state.ends, moments[other]?.flight.state.ends];
  if (x === undefined || y === undefined) return false;
  return x.every((bits, i) => {
    const both = bits | (y[i] as number);
    const isTorn = (least: number, most: number) => (both & least) !== 0 && (both & most) !== 0;
    return !isTorn(END.offLeast, END.offMost) && !isTorn(END.onLeast, END.onMost);
  });
}

/** @param flight with everything on its way */
function between(flight: Flight, one: Event, other: Event): Omit<Race, "from" | "move" | "decides"> | undefined {
  if (one.kind !== "latch" || other.kind !== "latch") return undefined;
  const [p, q] = [one, other].map((e) => flight.pending.find((x) => x.what === e.latch));
  if (p === undefined || q === undefined) return undefined;
  const { state } = flight;
  return {
    one,
    other,
    ahead: apart(flight, p, q).most,
    behind: apart(flight, q, p).most,
    state,
    before: eventsOf(flight),
  };
}
