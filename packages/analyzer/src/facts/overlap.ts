import type { Found, Search, WorldMove } from "../behave/explore.ts";
import { type Event, eventsOf, type Flight } from "../behave/flight.ts";
import type { Course } from "../behave/follow.ts";
import { type PoleWay, poleWays } from "../behave/pole-ways.ts";
import { isInside, logicIn, scopeOf, YES } from "../behave/scope.ts";
import type { State } from "../behave/state.ts";
import type { Circuit, Element } from "../circuit/circuit.ts";
import type { RunFacts } from "./facts.ts";
import { type Lasting, lastingFrom, turnsOf } from "./turns.ts";

/** Two feeds, or feed and ground, meet while contacts move, and only then. */
export interface Overlap {
  readonly way: PoleWay;
  readonly from: number;
  readonly move: WorldMove;
  /** The state in which they meet, as the search sees it. */
  readonly state: State;
  /** What happened before they met. */
  readonly before: readonly Event[];
  readonly lasting: Lasting;
  /** Seconds that it surely lasts, if the world moves so that it lasts. */
  readonly surely: number;
}

/** Shorter than this is over before a contact has done bouncing: 1 ms, common practice, no source. */
export const BOUNCE_SECONDS = 1e-3;

/** The longest meeting of each way between poles that no quiet state closes. */
export function overlapsIn(run: RunFacts): readonly Overlap[] {
  const { circuit } = run.machine;
  const ways = poleWays(circuit).filter((w) => w.kind !== "drain" && w.movers.length > 1);
  const longest = new Map<PoleWay, Overlap>();
  if (ways.length === 0) return [];
  for (const search of run.reachable.searches) {
    const scope = search.machine.view?.scope;
    const own = ways.filter(
      (w) =>
        !longest.has(w) &&
        (scope === undefined || isInside(scopeOf(circuit, w.movers), scope)) &&
        !meetsAtRest(run, search, w),
    );
    for (const o of own.length === 0 ? [] : overlapsOf(run, search, own)) {
      const best = longest.get(o.way);
      const surely = Math.max(o.surely, best?.surely ?? 0);
      longest.set(o.way, { ...(best !== undefined && best.lasting.most >= o.lasting.most ? best : o), surely });
    }
  }
  return ways.flatMap((w) => longest.get(w) ?? []);
}

const meets = (circuit: Circuit, { gates }: PoleWay, s: State): boolean =>
  gates.every((g) => logicIn((circuit.elements[g] as Element).closed, s) === YES);

function meetsAtRest({ machine, reachable }: RunFacts, { first, end }: Search, way: PoleWay): boolean {
  for (let at = first; at < end; at++)
    if (meets(machine.circuit, way, (reachable.found[at] as Found).state)) return true;
  return false;
}

function* overlapsOf(run: RunFacts, search: Search, ways: readonly PoleWay[]): Generator<Overlap> {
  const { circuit } = run.machine;
  for (const { from, move, machine, course } of turnsOf(run, search, { hand: "quick" }))
    for (const way of ways) {
      const isMet = (s: State) => meets(circuit, way, s);
      for (const flight of beginnings(course, isMet)) {
        const lasting = lastingFrom(machine, flight, isMet);
        if (lasting !== undefined && lasting.most > BOUNCE_SECONDS)
          yield { way, from, move, state: flight.state, before: eventsOf(flight), lasting, surely: lasting.least };
      }
    }
}

/** Moments at which something becomes so that was not so before. */
function beginnings({ moments }: Course, isSo: (s: State) => boolean): readonly Flight[] {
  const begun = new Set<Flight>();
  const [start] = moments;
  if (start !== undefined && isSo(start.flight.state)) begun.add(start.flight);
  for (const { flight, next, late } of moments)
    if (!isSo(flight.state))
      for (const n of [...next, ...late]) {
        const to = moments[n];
        if (to !== undefined && isSo(to.flight.state)) begun.add(to.flight);
      }
  return [...begun];
}
