import { coldRelays } from "../behave/cold.ts";
import { movesFrom } from "../behave/explore.ts";
import type { Hold } from "../behave/hold.ts";
import { onState } from "../behave/loads.ts";
import { opened, pointOf } from "../behave/machine.ts";
import { settle, settleToRest } from "../behave/settle.ts";
import { withRelays } from "../behave/state.ts";
import type { Circuit, Element, Latch, SealClaim } from "../circuit/circuit.ts";
import { caughtIn } from "../facts/caught.ts";
import { isEnforced } from "../facts/enforced.ts";
import type { RunFacts } from "../facts/facts.ts";
import { type Doubt, unprovenHolds } from "../facts/seal-in.ts";
import { type Trace, terminalsOf, traceThrough } from "../facts/trace.ts";
import { list, named, namedLoad, standing, volts } from "../facts/words.ts";
import { selfHoldExamples } from "./examples/self-hold.ts";
import { inEveryState, type Rule, type Severity, type Sighting, toldLater } from "./rule.ts";

export const selfHold: Rule = {
  id: "self-hold",
  title: "A relay holds itself in",
  why:
    "A relay pulls in at one current and lets go at a much smaller one. A current too weak to pull it in, coming back " +
    "through a coil, a lamp or a controller, can hold it. Then a pump or an ignition runs on with the key in the pocket.",
  source:
    "operate and release of relays: data sheets in the release study (read); the definition of a hold is this project's own",
  severities: ["danger", "fault", "note"],
  blindTo:
    "times shorter than the landing of a contact, contact bounce, relays that are stuck, and what slows a relay by way of " +
    "contacts or through other loads: only its own suppression and what wires alone lead across its coil is reckoned with",
  examples: selfHoldExamples,
  *check(facts) {
    for (const run of facts.runs) for (const [hold, doubt] of unprovenHolds(run)) yield sightingOf(run, hold, doubt);
    if (!facts.ofAllRuns) return;
    for (const claim of facts.circuit.sealClaims)
      if (facts.runs.every((run) => run.reachable.complete && !run.holds().some((h) => h.ring.includes(claim.latch))))
        yield doesNotHold(facts.circuit, claim);
  },
};

/** @param doubt why it is not what the owner says is meant, where the owner says so */
function sightingOf(run: RunFacts, hold: Hold, doubt: Doubt | undefined): Sighting {
  const { at, state, ring, kind } = hold;
  return toldLater(
    {
      subjects: ring.map((r) => (run.machine.circuit.latches[r] as Latch).id),
      run,
      at,
      ends: state.ends,
      isPossible: kind === "caught" ? caughtIn(run, hold)?.surely === false : !isEnforced(run, hold),
      hold,
      ...(doubt === undefined ? {} : { doubt }),
    },
    () => told(run, hold, doubt),
  );
}

function told(run: RunFacts, hold: Hold, doubt: Doubt | undefined) {
  const { machine } = run;
  const { circuit } = machine;
  const point = pointOf(machine, hold.state);
  const ring = hold.ring.map((r) => circuit.latches[r] as Latch);
  const ids = ring.map((l) => l.id);
  const followers = hold.followers.map((r) => (circuit.latches[r] as Latch).id);
  const coils = hold.ring.map((r) => coilVolts(circuit, point.drives, r));
  const trace = traceThrough(circuit, point, coilElement(ring[0] as Latch));
  const unasked = loadsOnlyBecause(run, hold);
  const engine = circuit.works.find(
    (w) => hold.state.latches[w.latch] === 1 && unasked.some((l) => w.needs.includes(l.part)),
  );
  const isSealIn = doubt === undefined && looksLikeSealIn(run, hold, trace);
  const harm = unasked.some((l) => l.harm !== "none");
  const severity: Severity = isSealIn ? "note" : harm ? "danger" : "fault";
  const first = coils[0] as (typeof coils)[number];
  const name = named(ids[0] ?? "", ring[0]?.label ?? "");
  return {
    severity,
    where: [...ids, ...followers],
    path: terminalsOf(circuit, trace),
    title: doubt === undefined ? titleOf(hold, name, ids, isSealIn) : `${name} does not hold as it is meant to`,
    text: isSealIn
      ? `${name} stays in through its own contact until a switch is moved. This looks like a start and stop.`
      : doubt !== undefined
        ? `It is meant to hold through ${doubt.claim.through} (${doubt.claim.id}), but ${doubt.says}.` +
          (unasked.length > 0 ? ` ${list(unasked.map(namedLoad))} can stay on against what you mean.` : "")
        : `With ${standing(circuit, hold.state)}, the coil of ${ids[0]} still gets ${volts(first.volts)}; it lets go for certain only below ${volts(first.releaseLeast)}.` +
          (unasked.length > 0
            ? ` So ${list(unasked.map(namedLoad))} ${unasked.length > 1 ? "stay" : "stays"} on${engine === undefined ? "" : `, and ${named(engine.part, engine.label)} runs on`}.`
            : followers.length > 0
              ? ` ${list(followers)} comes along with it.`
              : ""),
    remedy: isSealIn
      ? "Say so in the loom if it is meant."
      : doubt !== undefined && !doubt.isHeldBeside
        ? `Change the wiring, or what ${doubt.claim.id} says is meant.`
        : "Find the path below and open it where nothing else needs it.",
    numbers: coils.map((c) => ({ name: `coil of ${c.id}`, value: c.volts, unit: "V", limit: c.releaseLeast })),
    harm,
  };
}

/** The owner says that it seals itself in, and in no state of any run it does. */
function doesNotHold(circuit: Circuit, { id, relay, latch, through }: SealClaim): Sighting {
  return inEveryState({
    subjects: [relay],
    severity: "fault",
    where: [relay],
    path: [],
    title: `${named(relay, circuit.latches[latch]?.label ?? "")} does not seal itself in`,
    text: `It is meant to hold through ${through} (${id}), but it never stays in by itself.`,
    remedy: `Follow its coil from ${through} back to the battery.`,
  });
}

function titleOf(hold: Hold, name: string, ids: readonly string[], isSealIn: boolean): string {
  if (isSealIn) return `${name} seals itself in`;
  if (hold.through === "leak") return `${name} is held without its own contact`;
  return ids.length === 1 ? `${name} holds itself in` : `${list(ids)} hold each other in`;
}

const coilElement = (latch: Latch): number =>
  latch.drive.kind === "amp-turns" ? (latch.drive.windings[0]?.element ?? 0) : 0;

/** Coil volts as at 20 °C, with the volts at which it lets go. */
export function coilVolts(circuit: Circuit, drives: Float64Array, latch: number) {
  const l = circuit.latches[latch] as Latch;
  return {
    id: l.id,
    volts: (drives[latch] ?? 0) * l.voltsPerDrive,
    releaseLeast: l.off.least * l.voltsPerDrive,
    releaseMost: l.off.most * l.voltsPerDrive,
  };
}

/** Loads, coils apart, that are on in the held state and off once the ring is out. */
function loadsOnlyBecause(run: RunFacts, hold: Hold) {
  const { machine } = run;
  const cold = coldRelays(machine, hold.state);
  const released = withRelays(
    machine.circuit,
    hold.state,
    [...hold.ring, ...hold.followers].filter((r) => !cold.has(r)),
    false,
  );
  const rest = settleToRest(machine, released, new Set(hold.ring)).states;
  const seen = new Set<string>();
  return machine.circuit.loads.filter((load) => {
    if (load.judge.kind === "latch" || seen.has(load.part)) return false;
    const now = onState(machine, hold.state, pointOf(machine, hold.state), load);
    if (now === "off") return false;
    const later = rest.some((s) => onState(machine, s, pointOf(machine, s), load) === now);
    if (!later) seen.add(load.part);
    return !later;
  });
}

/** Nobody starts a thing by turning the key off and on faster than relays let go. */
function setByFlick({ reachable, searchOf }: RunFacts, { at, ring }: Hold): boolean {
  const { first, end } = searchOf(at);
  const isIn = (f: number) => ring.every((r) => reachable.found[f]?.state.latches[r] === 1);
  return reachable.edges
    .filter(({ from, to }) => to >= first && to < end && isIn(to) && !(from >= first && isIn(from)))
    .every(({ events }) => events.some((e) => e.kind === "stand" && e.straightOn));
}

/**
 * A start and stop: one relay, fed through its own contact and through conductors and gates only, that some single move
 * of a switch lets go in every case.
 */
function looksLikeSealIn(run: RunFacts, hold: Hold, trace: Trace): boolean {
  const { machine } = run;
  const { circuit } = machine;
  const [relay] = hold.ring;
  if (relay === undefined || hold.ring.length > 1 || hold.through === "leak") return false;
  if (setByFlick(run, hold)) return false;
  const own = circuit.contactsOf.get(circuit.latches[relay]?.part ?? "") ?? [];
  const coil = coilElement(circuit.latches[relay] as Latch);
  const clean = trace.elements.every((i) => {
    const e = circuit.elements[i] as Element;
    return i === coil || e.class === "conductor" || e.class === "gate" || e.class === "source";
  });
  if (!clean || !trace.elements.some((i) => own.includes(i))) return false;
  if (!settle(opened(machine, own), hold.state).landings.every((l) => l.state.latches[relay] === 0)) return false;
  return movesFrom(circuit, hold.state).some((m) => {
    if (m.move.kind !== "inputs" || !m.move.set.every(({ input }) => circuit.inputs[input]?.kind === "switch"))
      return false;
    // Whoever stops it lets the switch stand: a flick faster than the relay is no stop.
    const { landings } = settle(machine, m.start, { passage: m.passage });
    return landings.length > 0 && landings.every((l) => l.state.latches[relay] === 0);
  });
}
