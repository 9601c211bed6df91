import { movesFrom } from "../behave/explore.ts";
import type { Passage } from "../behave/flight.ts";
import type { Hold } from "../behave/hold.ts";
import { opened, pointOf } from "../behave/machine.ts";
import { settle, settleToRest } from "../behave/settle.ts";
import { type State, withStand } from "../behave/state.ts";
import type { Circuit, Element, Latch, SealClaim, Situation, Term } from "../circuit/circuit.ts";
import type { RunFacts } from "./facts.ts";
import { isSo } from "./situation.ts";
import { traceThrough } from "./trace.ts";
import { list, moveSet } from "./words.ts";

/** Why a hold is not the start and stop that the owner says it is, in words that follow "but". */
export interface Doubt {
  readonly claim: SealClaim;
  readonly says: string;
  /** Something else holds the relay with the contact of the claim open: that can be looked for by itself. */
  readonly isHeldBeside: boolean;
}

/**
 * Holds that no claim of the owner covers, or that a claim covers and that do not prove to be what it says.
 *
 * @param holds all of a run, or some
 */
export const unprovenHolds = (
  run: RunFacts,
  holds: readonly Hold[] = run.holds(),
): readonly (readonly [Hold, Doubt | undefined])[] =>
  holds.flatMap((hold): readonly (readonly [Hold, Doubt | undefined])[] => {
    const claims = run.machine.circuit.sealClaims.filter((c) => hold.ring.includes(c.latch));
    const doubts = claims.map((claim) => doubtOf(run, hold, claim));
    return doubts.includes(undefined) ? [] : [[hold, doubts[0]]];
  });

/** Which part of a claim one hold breaks, in one run; undefined if it is proved there. Cost: some settlings a hold. */
function doubtOf(run: RunFacts, hold: Hold, claim: SealClaim): Doubt | undefined {
  const { circuit } = run.machine;
  const doubt = (says: string, isHeldBeside = false): Doubt => ({ claim, says, isHeldBeside });
  const [lacks] = claim.lacks;
  if (lacks !== undefined) return doubt(lacks);
  if (claim.contacts.length === 0) return doubt(`no contact of ${claim.relay} closes between ${claim.through}`);
  if (hold.ring.length > 1) {
    const others = hold.ring.filter((r) => r !== claim.latch).map((r) => circuit.latches[r]?.id ?? "");
    return doubt(`${list(others)} must stay in with it`);
  }
  const without = settleToRest(opened(run.machine, claim.contacts), hold.state).states;
  if (!without.every((s) => isOut(claim, s))) return doubt("it stays in with that contact open", true);
  const foreign = foreignOn(run, hold, claim);
  if (foreign !== undefined) return doubt(foreign);
  const stays = claim.clear?.find((situation) => !clears(run, hold.state, claim, situation));
  if (stays !== undefined) return doubt(`${stays.says} does not let it go for certain`);
  if (claim.clear === undefined && !someSwitchClears(run, hold.state, claim))
    return doubt("no single switch lets it go");
  const other = otherSetter(run, claim);
  return other === undefined ? undefined : doubt(`${other} pulls it in too`);
}

const isOut = ({ latch }: SealClaim, s: State): boolean => s.latches[latch] === 0;

/** What the holding current passes that is neither conductor nor gate, or that it does not pass the contact. */
function foreignOn({ machine }: RunFacts, { state }: Hold, { latch, contacts }: SealClaim): string | undefined {
  const { circuit } = machine;
  const { drive } = circuit.latches[latch] as Latch;
  const windings = drive.kind === "amp-turns" ? drive.windings.map((w) => w.element) : [];
  const { elements } = traceThrough(circuit, pointOf(machine, state), windings[0] ?? 0);
  const foreign = elements
    .filter((i) => !windings.includes(i))
    .map((i) => circuit.elements[i] as Element)
    .find((e) => e.class === "load" || e.class === "stray");
  if (foreign !== undefined) return `its current passes ${foreign.owner.id}`;
  return elements.some((i) => contacts.includes(i)) ? undefined : "its current does not pass that contact";
}

/** Whether a move into a situation lets the relay go in every order, with the hand staying there. */
function clears(run: RunFacts, state: State, claim: SealClaim, situation: Situation): boolean {
  if (isSo(situation, state)) return false;
  return movesInto(run.machine.circuit, state, situation).every(({ start, passage }) =>
    letsGo(run, claim, start, passage),
  );
}

function letsGo({ machine }: RunFacts, claim: SealClaim, start: State, passage: Passage | undefined): boolean {
  // Whoever stops it lets the switch stand: a flick faster than the relay is no stop.
  const { landings, complete } = settle(machine, start, { passage });
  return complete && landings.length > 0 && landings.every((l) => isOut(claim, l.state));
}

interface Into {
  readonly start: State;
  readonly passage?: Passage;
}

/** The one move that leads into a situation, by the way the switch passes; else all inputs put there at once. */
function movesInto(circuit: Circuit, state: State, { terms }: Situation): readonly Into[] {
  const put = terms.flatMap((t) => {
    const stand = standFor(t);
    return isSo({ terms: [t], says: "" }, state) || stand < 0 ? [] : [{ input: t.input, stand }];
  });
  const [only] = put;
  const moves =
    put.length !== 1 || only === undefined
      ? []
      : movesFrom(circuit, state).filter(
          ({ move }) =>
            move.kind === "inputs" && move.set.some((m) => m.input === only.input && m.stand === only.stand),
        );
  return moves.length > 0 ? moves : [{ start: put.reduce((s, { input, stand }) => withStand(s, input, stand), state) }];
}

/** Where an input stands so that a term holds. An engine stands at "stopped", then "running". */
const standFor = (t: Term): number => (t.kind === "engine" ? (t.is ? 1 : 0) : t.stands.indexOf(true));

/** Where the owner does not say what stops it, some one switch must. */
const someSwitchClears = (run: RunFacts, state: State, claim: SealClaim): boolean =>
  movesFrom(run.machine.circuit, state).some(
    ({ move, start, passage }) =>
      move.kind === "inputs" &&
      move.set.every(({ input }) => run.machine.circuit.inputs[input]?.kind === "switch") &&
      letsGo(run, claim, start, passage),
  );

/** A move after which the relay is in, out of a state where it was not, in none of the situations that may set it. */
function otherSetter({ machine, reachable }: RunFacts, { latch, set }: SealClaim): string | undefined {
  if (set === undefined) return undefined;
  for (const { from, to, move } of reachable.edges) {
    const state = reachable.found[to]?.state;
    if (state?.latches[latch] !== 1 || reachable.found[from]?.state.latches[latch] === 1) continue;
    if (set.some((situation) => isSo(situation, state))) continue;
    switch (move.kind) {
      case "power on":
        return "the battery, once connected,";
      case "timer":
        return "something that times out";
      case "inputs":
        return Object.entries(moveSet(machine.circuit, move))
          .map(([input, stand]) => `${input} ${stand}`)
          .join(" with ");
      default:
        return move satisfies never;
    }
  }
  return undefined;
}
