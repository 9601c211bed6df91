import { coldRelays, extraRelays, relaysInNow } from "./cold.ts";
import { completed } from "./complete.ts";
import { byIslands } from "./decide.ts";
import type { Found, Reachable, Search } from "./explore.ts";
import { askedIn, isAskedFor, unfedModules } from "./loads.ts";
import { type Machine, opened, pointOf, within } from "./machine.ts";
import { once } from "./once.ts";
import { hasLatches } from "./scope.ts";
import { oneRest, settle, settleToRest } from "./settle.ts";
import { type State, withRelays } from "./state.ts";

/** Relays that stay in with nothing asking for them, in one found state. */
export interface Hold {
  readonly at: number;
  /** The found state with the whole loom come to rest around it; once asked. */
  readonly state: State;
  /** Smallest set of relays that keep themselves in; latch indices, ascending. */
  readonly ring: readonly number[];
  /** Relays that are in only because the ring is; once asked. */
  readonly followers: readonly number[];
  /** A loop goes through the ring's own contacts; a leak holds the coils without them. */
  readonly through: "loop" | "leak";
  /** Whether every way into the hold had a ring relay on its way out (caught), or one had not (standing). */
  readonly kind: "standing" | "caught";
}

/** Rings larger than this are not looked for; the search would be wider than any loom needs. */
const MOST_RING = 4;

/**
 * Holds of every rest state in which nothing is requested, one entry a ring and state.
 *
 * @param among latches, one of which must be in the ring; left out, any ring counts
 */
export function holdsIn(reachable: Reachable, among?: readonly number[]): readonly Hold[] {
  const { searches } = reachable;
  const isAmong = (ring: readonly number[]) => among === undefined || ring.some((l) => among.includes(l));
  return searches.flatMap((search, k) => {
    // A ring lies in every search that moves all of its relays; it is looked at in the first.
    const isTold = (ring: readonly number[]) =>
      searches.slice(0, k).some((s) => hasLatches(s.machine.view?.scope, ring));
    return holdsOf(reachable, search, (ring) => isAmong(ring) && !isTold(ring));
  });
}

/** @param isNew whether a ring is looked at here; if it is not, none of fewer relays is */
function holdsOf(reachable: Reachable, search: Search, isNew: (ring: readonly number[]) => boolean): readonly Hold[] {
  const { machine, first, end } = search;
  const extras = new Map<number, readonly number[]>();
  for (let at = first; at < end; at++) {
    const f = reachable.found[at] as Found;
    if (!f.rest || !isNew(relaysInNow(machine, f.state)) || !isLetGo(machine, f)) continue;
    const extra = within(machine, (m) => extraRelays(m, f.state));
    if (extra.length > 0 && isNew(extra)) extras.set(at, extra);
  }
  const holds: Hold[] = [];
  const kinds = new Map<string, Hold["kind"]>();
  for (const [at, extra] of extras) {
    const { state } = reachable.found[at] as Found;
    for (const ring of within(machine, (m) => ringsOf(m, state, extra))) {
      if (!isNew(ring)) continue;
      const through = once(() => within(machine, (m) => throughOf(m, state, ring)));
      if (areAskedFor(machine, state, ring) && through() === "leak") continue;
      const kind = kinds.get(ring.join()) ?? kindOf(reachable, search, extras, ring);
      kinds.set(ring.join(), kind);
      const whole = once(() => completed(reachable.machine, machine.view?.scope, state));
      const followers = once(() => followersOf(byIslands(reachable.machine), whole(), ring));
      holds.push({
        at,
        get state() {
          return whole();
        },
        ring,
        get followers() {
          return followers();
        },
        get through() {
          return through();
        },
        kind,
      });
    }
  }
  return holds;
}

/** Every request is off, except those of a module that what is being examined keeps alive. */
function isLetGo(machine: Machine, f: Found): boolean {
  const on = machine.circuit.inputs.filter((input, i) => input.kind === "request" && f.state.stands[i] !== input.usual);
  if (on.length === 0) return true;
  const unfed = unfedModules(machine, f.state);
  return on.every((input) => input.module !== undefined && unfed.has(input.module));
}

/** Smallest sets of extra relays that stay in when all other extra relays are forced out. */
function ringsOf(machine: Machine, state: State, extra: readonly number[]): readonly (readonly number[])[] {
  const rings: (readonly number[])[] = [];
  for (let size = 1; size <= Math.min(MOST_RING, extra.length); size++)
    for (const set of subsets(extra, size)) {
      if (rings.some((r) => r.every((x) => set.includes(x)))) continue;
      if (staysIn(machine, state, extra, set)) rings.push(set);
    }
  return rings;
}

function staysIn(machine: Machine, state: State, extra: readonly number[], ring: readonly number[]): boolean {
  const out = extra.filter((r) => !ring.includes(r));
  const start = withRelays(machine.circuit, state, out, false);
  const isIn = (s: State) => ring.every((r) => s.latches[r] === 1);
  const first = oneRest(machine, start, { frozen: new Set(out) });
  if (first !== undefined && !isIn(first)) return false;
  const rest = settleToRest(machine, start, new Set(out));
  return rest.states.length > 0 && rest.states.every(isIn);
}

/** Extra relays that drop once the ring is forced out. */
function followersOf(machine: Machine, state: State, ring: readonly number[]): readonly number[] {
  const extra = extraRelays(machine, state);
  const start = withRelays(machine.circuit, state, ring, false);
  const rest = settleToRest(machine, start, new Set(ring));
  const cold = coldRelays(machine, state);
  return extra.filter((r) => !ring.includes(r) && !cold.has(r) && rest.states.some((s) => s.latches[r] === 0));
}

/** With the ring's make contacts open and its armatures untouched: if its coils stay fed, it is a leak. */
function throughOf(machine: Machine, state: State, ring: readonly number[]): "loop" | "leak" {
  const contacts = ring.flatMap((r) => machine.circuit.contactsOf.get(machine.circuit.latches[r]?.part ?? "") ?? []);
  const cut = opened(machine, contacts);
  const settled = settle(cut, state, { frozen: new Set(ring) });
  const fed = settled.landings.every((l) =>
    ring.every((r) => (pointOf(cut, l.state).drives[r] ?? 0) > (machine.circuit.latches[r]?.off.least ?? 0)),
  );
  return fed ? "leak" : "loop";
}

/**
 * Coils that have their designed feed and return: not held by a leak, but asked for by a source that remembers, such as
 * an alternator that was excited and still turns.
 */
function areAskedFor(machine: Machine, state: State, ring: readonly number[]): boolean {
  const asked = askedIn(machine, state);
  return ring.every((r) =>
    machine.circuit.loads.some(
      (l) => l.judge.kind === "latch" && l.judge.latch === r && isAskedFor(machine.circuit, asked, l),
    ),
  );
}

/**
 * Standing: on some way in, from a state where the ring was rightly in (or was out), its coils never reached release. On
 * a caught hold every way in had a ring relay already letting go when a contact closed in time.
 */
function kindOf(
  { edges, found }: Reachable,
  search: Search,
  extras: ReadonlyMap<number, readonly number[]>,
  ring: readonly number[],
): "standing" | "caught" {
  const { machine } = search;
  const quick = new Map<number, readonly number[]>();
  // A state in which a timer still runs can be in the hold already.
  const extraAt = (i: number): readonly number[] => {
    const f = found[i];
    if (f === undefined || f.rest) return extras.get(i) ?? [];
    let extra = quick.get(i);
    if (extra === undefined) {
      extra = within(machine, (m) => extraRelays(m, f.state));
      quick.set(i, extra);
    }
    return extra;
  };
  const held = (i: number) => ring.every((r) => extraAt(i).includes(r));
  const isEntry = (from: number, to: number) => held(to) && !held(from);
  const isOwn = (at: number) => at >= search.first && at < search.end;
  return edges.some((e) => isOwn(e.to) && !ring.some((r) => e.tempted.includes(r)) && isEntry(e.from, e.to))
    ? "standing"
    : "caught";
}

function* subsets(items: readonly number[], size: number, from = 0): Generator<readonly number[]> {
  if (size === 0) yield [];
  else
    for (let i = from; i <= items.length - size; i++)
      for (const rest of subsets(items, size - 1, i + 1)) yield [items[i] as number, ...rest];
}
