import type { Edge, WorldMove } from "../behave/explore.ts";
import type { Hold } from "../behave/hold.ts";
import { END } from "../behave/state.ts";
import type { RunFacts } from "./facts.ts";

const cache = new WeakMap<RunFacts, Map<string, ReadonlySet<number>>>();

/**
 * Whether some move leads into a hold whatever the times are: the ring is in wherever that move can come to rest, and so
 * on from a state before which it was not held. A standing hold may still hang on a race of relays beside the ring.
 */
export function isEnforced(run: RunFacts, { at, ring }: Hold): boolean {
  let known = cache.get(run);
  if (known === undefined) {
    known = new Map();
    cache.set(run, known);
  }
  const key = ring.join();
  let sure = known.get(key);
  if (sure === undefined) {
    sure = surelyHeld(run, ring);
    known.set(key, sure);
  }
  return sure.has(at);
}

/** No relay has a threshold at both ends of its spread. */
const isBoth = (bits: number): boolean => {
  const at = (least: number, most: number) => (bits & least) !== 0 && (bits & most) !== 0;
  return at(END.offLeast, END.offMost) || at(END.onLeast, END.onMost);
};

function surelyHeld(run: RunFacts, ring: readonly number[]): ReadonlySet<number> {
  const { edges, found } = run.reachable;
  const held = new Set(run.holds().flatMap((h) => (h.ring.join() === ring.join() ? [h.at] : [])));
  const isIn = (at: number) => ring.every((r) => found[at]?.state.latches[r] === 1);
  // Edges of one move share it. At other ends of the spreads it may lead elsewhere: that is no matter of times.
  const landings = new Map<WorldMove, Edge[]>();
  for (const e of edges) {
    const same = landings.get(e.move);
    if (same === undefined) landings.set(e.move, [e]);
    else same.push(e);
  }
  const landingsOf = ({ move, from }: Edge) => (landings.get(move) ?? []).filter((o) => o.from === from);
  const canBeOne = (a: number, b: number): boolean => {
    const [x, y] = [found[a]?.state.ends, found[b]?.state.ends];
    return x?.every((bits, l) => !isBoth(bits | (y?.[l] ?? 0))) ?? false;
  };
  const entries = edges.filter(
    (e) => held.has(e.to) && landingsOf(e).every((o) => isIn(o.to) || !canBeOne(o.to, e.to)),
  );
  const sure = new Set<number>();
  for (let before = -1; before !== sure.size; ) {
    before = sure.size;
    for (const e of entries) if (!held.has(e.from) || sure.has(e.from)) sure.add(e.to);
  }
  return sure;
}
