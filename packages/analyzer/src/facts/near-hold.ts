import { contactOf, setOff } from "../behave/advance.ts";
import { extraRelays } from "../behave/cold.ts";
import type { Search, WorldMove } from "../behave/explore.ts";
import { apart, type Event, eventsOf, type Flight } from "../behave/flight.ts";
import { byViewAlone, type Machine } from "../behave/machine.ts";
import type { Pending } from "../behave/pending.ts";
import { hasLatches } from "../behave/scope.ts";
import { settleToRest } from "../behave/settle.ts";
import { type State, toggling, withRelays } from "../behave/state.ts";
import { wantsOf } from "../behave/wants.ts";
import type { Latch } from "../circuit/circuit.ts";
import type { RunFacts } from "./facts.ts";
import { type Turn, turnsOf } from "./turns.ts";

/** A relay that lets go in time: had something else landed first, it would have held itself in. Times in seconds. */
export interface NearHold {
  readonly from: number;
  readonly move: WorldMove;
  /** The relay, and what would have caught it. */
  readonly latch: number;
  readonly by: number;
  /** How much sooner the relay lets go: the least and the most. */
  readonly least: number;
  readonly most: number;
  /** The moment at which both are on their way, and what happened before. */
  readonly state: State;
  readonly before: readonly Event[];
}

/** The nearest miss of each pair. Looks at two moves that are on their way together, in the order that times forbid. */
export function nearHoldsIn(run: RunFacts): readonly NearHold[] {
  const nearest = new Map<string, NearHold>();
  // What holds itself in anyway is told as that, and so is what only comes along with it.
  const told = new Set(run.holds().flatMap((h) => h.ring));
  const { searches } = run.reachable;
  for (const [k, search] of searches.entries()) {
    const slow = slowLatches(search);
    // What an earlier search moves as well it has met on its way together at the same times.
    const isKnown = searches.slice(0, k).some((s) => hasLatches(s.machine.view?.scope, slow));
    if (slow.length < 2 || isKnown) continue;
    for (const near of nearHoldsOf(run, search, told)) {
      const key = `${near.latch} ${near.by}`;
      const best = nearest.get(key);
      if (best === undefined || near.least < best.least) nearest.set(key, near);
    }
  }
  return [...nearest.values()];
}

/** Latches that are on their way for some time before they land. */
const slowLatches = ({ machine }: Search): readonly number[] =>
  machine.latches.filter((l) => {
    const { onTime, offTime } = machine.circuit.latches[l] as Latch;
    return onTime.most > 0 || offTime.most > 0;
  });

function* nearHoldsOf(run: RunFacts, search: Search, told: ReadonlySet<number>): Generator<NearHold> {
  const held = new Map<string, boolean>();
  for (const turn of turnsOf(run, search, { hand: "slow" })) {
    const { machine, course, from, move } = turn;
    for (const { flight: moment, next } of course.moments) {
      const flight = next.length > 0 ? setOff(machine, moment) : undefined;
      if (flight === undefined) continue;
      for (const [latch, by] of missed(turn, flight, next)) {
        if (told.has(latch.what)) continue;
        const state = toggling(flight.state, by.moves);
        const key = `${state.key} ${latch.what}`;
        let is = held.get(key);
        if (is === undefined) {
          is = wouldHold(machine, state, latch.what, told);
          held.set(key, is);
        }
        const margin = apart(flight, latch, by);
        // Where it can be the other way round, something else has to land first: then they are looked at again.
        if (!is || margin.least < 0) continue;
        yield {
          from,
          move,
          latch: latch.what,
          by: by.what,
          ...margin,
          state: flight.state,
          before: eventsOf(flight),
        };
      }
    }
  }
}

/** Something else that lands, and the latches that have moved then. */
type Other = Pending & { readonly moves: readonly number[] };

/** Pairs on their way together: a relay letting go, and what never lands before it. */
function missed(
  { machine, course }: Turn,
  flight: Flight,
  next: readonly number[],
): readonly (readonly [Pending, Other])[] {
  const { pending, state } = flight;
  if (pending.length < 2) return [];
  const first = new Set(
    next.map((n) => {
      const event = course.moments[n]?.flight.events?.event;
      return event?.kind === "latch" ? event.latch : -1;
    }),
  );
  const { circuit } = machine;
  const letting = pending.filter(({ what }) => circuit.latches[what]?.kind === "armature" && state.latches[what] === 1);
  return letting.flatMap((l) => {
    const others = pending.filter((p) => p.what >= 0 && p !== l);
    // What closes at the end of its way in the air is never first where the whole way is too long.
    const closing = others.flatMap((p): Other[] => {
      const contact = contactOf(circuit, state, p);
      return contact === undefined || apart(flight, l, contact.onItsWay).least <= 0
        ? []
        : [{ ...contact.onItsWay, moves: [p.what, contact.latch] }];
    });
    const moving = others.flatMap((p): Other[] => (first.has(p.what) ? [] : [{ ...p, moves: [p.what] }]));
    return [...moving, ...closing].map((other) => [l, other] as const);
  });
}

/**
 * Whether a relay that was letting go would stay in from here, for good and with nothing asking for it, and would do so
 * with the relays out that hold themselves in anyway.
 */
function wouldHold(machine: Machine, state: State, latch: number, told: ReadonlySet<number>): boolean {
  const staysIn = (s: State): boolean => s.latches[latch] === 1 && extraRelays(machine, s).includes(latch);
  // A state that never comes may hang on more than the search has looked at: then it is not known.
  const holds = byViewAlone(machine, () => {
    if (wantsOf(machine, state).changing.includes(latch)) return false;
    const held = settleToRest(machine, state).states.filter(staysIn);
    return held.some((s) => {
      const others = extraRelays(machine, s).filter((l) => told.has(l));
      if (others.length === 0) return true;
      return settleToRest(machine, withRelays(machine.circuit, s, others, false), new Set(others)).states.some(staysIn);
    });
  });
  return holds === true;
}
