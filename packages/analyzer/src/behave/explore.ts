import type { Circuit, Input, Move } from "../circuit/circuit.ts";
import type { Felt } from "./felt.ts";
import { AT_ONCE, type Event, type Onwards, type Passage, passageOf, turningOn } from "./flight.ts";
import type { Machine } from "./machine.ts";
import type { Scope } from "./scope.ts";
import { type Landing, settle, timersOf } from "./settle.ts";
import { coldState, type State, toggling, withStand } from "./state.ts";

/** What the world did: inputs moved (several when they are linked), or a timer ran out, or power came on. */
export type WorldMove =
  | { readonly kind: "power on" }
  | {
      readonly kind: "inputs";
      readonly set: readonly { readonly input: number; readonly stand: number }[];
    }
  | { readonly kind: "timer"; readonly latch: number };

/** A quiet state that the loom can be in. */
export interface Found {
  readonly state: State;
  /** First way in: index of the state before, or -1 for power on. */
  readonly before: number;
  readonly move: WorldMove;
  readonly events: readonly Event[];
  /** Nothing on its way and no timer running. */
  readonly rest: boolean;
}

/** One way from a found state to another. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly tempted: readonly number[];
  readonly move: WorldMove;
  readonly events: readonly Event[];
}

/** A move after which nothing comes to rest, or only after something has gone on and off again. */
export interface Restless {
  readonly from: number;
  readonly move: WorldMove;
  readonly latches: readonly number[];
  /** The state before, with the inputs where the move puts them. */
  readonly state: State;
}

/** Everything the loom can do, as far as it was looked at. */
export interface Reachable {
  readonly machine: Machine;
  readonly found: readonly Found[];
  readonly edges: readonly Edge[];
  readonly restless: readonly Restless[];
  readonly rattling: readonly Restless[];
  readonly complete: boolean;
  /** Latches whose moves hang on how far all else drags the supply down, where that was taken as usual. */
  readonly asUsual: readonly number[];
  /** What was looked at together. One for a plain search. */
  readonly searches: readonly Search[];
}

/** One search of a part of what can move. Its states are `found[first]` to before `found[end]`. */
export interface Search {
  /** Moves only what is inside. */
  readonly machine: Machine;
  readonly first: number;
  readonly end: number;
  /** Loads whose doing is decided here, by index. */
  readonly loads: readonly number[];
  /** What each of these does, by load: one entry a state. Undefined for a plain search. */
  readonly felt: ReadonlyMap<number, readonly Felt[]> | undefined;
  /** What could meet here through conductors and gates alone: a feed its return, or the feed of another. */
  readonly meets: ReadonlySet<"short" | "meeting">;
}

/** Solves after which a search stops and says what it has not looked at. */
const BUDGET_SOLVES = 60_000;
/** States after which one search stops in the same way, and moments on the way between them. */
const BUDGET_STATES = 30_000;
const BUDGET_MOMENTS = 300_000;

export interface ExploreOptions {
  readonly budget?: number;
  readonly budgetMoments?: number;
  /** Moves to leave out: a planted fault, by which the tests show that a lost edge is noticed. */
  readonly leaveOut?: (state: State, move: WorldMove) => boolean;
}

/**
 * Walks every move from every state, in every order: of the whole loom, or of what a view lets move. A view that turns
 * out to miss something ends the walk early; what was found so far is then worth nothing.
 */
export function explore(machine: Machine, options: ExploreOptions = {}): Reachable {
  const { budget = BUDGET_SOLVES, budgetMoments = BUDGET_MOMENTS, leaveOut } = options;
  const lacks = () => machine.view !== undefined && machine.view.missing.size > 0;
  const found: Found[] = [];
  const index = new Map<string, number>();
  const edges: Edge[] = [];
  const restless: Restless[] = [];
  const rattling: Restless[] = [];
  let complete = true;
  let moments = 0;
  const land = (from: number, move: WorldMove, start: State, passage?: Passage) => {
    const settled = settle(machine, start, { passage });
    const state = passage === undefined ? start : withStand(start, passage.input, passage.stand);
    if (settled.restless) restless.push({ from, move, latches: settled.restless, state });
    if (settled.rattling.length > 0) rattling.push({ from, move, latches: settled.rattling, state });
    complete &&= settled.complete;
    moments += settled.moments;
    for (const landing of settled.landings) arrive(from, move, landing);
  };
  const arrive = (from: number, move: WorldMove, landing: Landing) => {
    const { key } = landing.state;
    let to = index.get(key);
    if (to === undefined) {
      to = found.length;
      index.set(key, to);
      const rest = timersOf(machine, landing.state).length === 0;
      found.push({ state: landing.state, before: from, move, events: landing.events, rest });
    }
    edges.push({ from, to, tempted: landing.tempted, move, events: landing.events });
  };
  land(-1, { kind: "power on" }, coldState(machine.circuit));
  for (let at = 0; at < found.length && !lacks(); at++) {
    if (machine.solves > budget || moments > budgetMoments || found.length > BUDGET_STATES) {
      complete = false;
      break;
    }
    const { state } = found[at] as Found;
    for (const t of timersOf(machine, state)) land(at, { kind: "timer", latch: t }, toggling(state, [t]));
    for (const m of movesFrom(machine.circuit, state, machine.view?.scope))
      if (leaveOut?.(state, m.move) !== true) land(at, m.move, m.start, passageTried(machine.circuit, m));
  }
  const search: Search = {
    machine,
    first: 0,
    end: found.length,
    loads: machine.circuit.loads.map((_, i) => i),
    felt: undefined,
    meets: new Set(["short", "meeting"] as const),
  };
  return { machine, found, edges, restless, rattling, complete, asUsual: [], searches: [search] };
}

interface Start {
  readonly move: WorldMove;
  readonly start: State;
  readonly passage?: Passage;
  /** Where a hand could turn straight on to from there, for whoever asks what follows. */
  readonly onwards?: Onwards | undefined;
}

/** Every single move of the world from a quiet state; two at once only where one alone cannot be. */
export function movesFrom(circuit: Circuit, state: State, scope?: Scope): readonly Start[] {
  const starts: Start[] = [];
  circuit.inputs.forEach((input, i) => {
    if (scope?.inputs[i] === 0) return;
    for (const m of input.moves) {
      if (m.from !== state.stands[i]) continue;
      if (isInert(input, m.to, state)) continue;
      const moved = withStand(state, i, m.to);
      const move: WorldMove = { kind: "inputs", set: [{ input: i, stand: m.to }] };
      if (isNever(circuit, moved)) starts.push(...linked(circuit, moved, i, m.to));
      else
        starts.push({
          move,
          start: m.via === undefined ? state : withStand(state, i, m.via),
          passage: passageOf(i, m.to, m.via === undefined ? AT_ONCE : m.seconds),
          onwards: onwardsOf(circuit, i, m),
        });
    }
  });
  return starts;
}

/** A hand that turns straight on does so within 50 ms: common practice, no source. */
const AGAIN_SECONDS = 0.05;

/** Past a position to the next; and a key off and on again. */
function onwardsOf(circuit: Circuit, input: number, { from, to }: Move): Onwards | undefined {
  const { kind, moves, isKey } = circuit.inputs[input] as Input;
  if (kind !== "switch" || circuit.never.some((set) => set.some((c) => c.input === input))) return undefined;
  const isQuick = (m: Move) => m.from === to && (m.to !== from || (isKey && to === 0));
  const stands = moves.flatMap((m) => (isQuick(m) ? [m.to] : []));
  return stands.length === 0 ? undefined : { stands, within: AGAIN_SECONDS };
}

/** A request of a sleeping module does nothing; it is turned on once the module can act. So is an engine's catching. */
export const isInert = (input: Input, to: number, state: State): boolean =>
  to !== input.usual && input.heededBy !== undefined && !input.heededBy.some((l) => state.latches[l] === 1);

/**
 * A key that is turned off may be turned on again before relays have let go. Any other hand that turns straight on is
 * left to who asks for it: with it everything soon hangs on everything.
 */
export function passageTried({ inputs }: Circuit, { passage, onwards }: Start): Passage | undefined {
  if (passage === undefined || passage.stand !== 0 || inputs[passage.input]?.isKey !== true) return passage;
  return turningOn(passage, onwards);
}

const isNever = (circuit: Circuit, state: State): boolean =>
  circuit.never.some((set) => set.every(({ input, stand }) => state.stands[input] === stand));

function linked(circuit: Circuit, moved: State, first: number, stand: number): readonly Start[] {
  return circuit.inputs.flatMap((other, j) =>
    j === first
      ? []
      : other.moves
          .filter((m) => m.from === moved.stands[j])
          .map((m): Start => {
            const set = [
              { input: first, stand },
              { input: j, stand: m.to },
            ];
            return { move: { kind: "inputs", set }, start: withStand(moved, j, m.to) };
          })
          .filter((s) => !isNever(circuit, s.start)),
  );
}
