import { coldRelays } from "../behave/cold.ts";
import { movesFrom } from "../behave/explore.ts";
import type { Hold } from "../behave/hold.ts";
import { onState } from "../behave/loads.ts";
import { opened, pointOf } from "../behave/machine.ts";
import { settle, settleToRest } from "../behave/settle.ts";
import { withLatches } from "../behave/state.ts";
import type { Circuit, Element, Latch } from "../circuit/circuit.ts";
import { caughtIn } from "../facts/caught.ts";
import type { RunFacts } from "../facts/facts.ts";
import { type Trace, terminalsOf, traceThrough } from "../facts/trace.ts";
import { list, named, namedLoad, standing, volts } from "../facts/words.ts";
import { selfHoldExamples } from "./examples/self-hold.ts";
import type { Rule, Severity, Sighting } from "./rule.ts";

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
    "times shorter than the landing of a contact, contact bounce, relays that are stuck, and a key that is turned on again before relays have settled",
  examples: selfHoldExamples,
  *check(facts) {
    for (const run of facts.runs) for (const hold of run.holds()) yield sightingOf(run, hold);
  },
};

function sightingOf(run: RunFacts, hold: Hold): Sighting {
  const { machine } = run;
  const { circuit } = machine;
  const point = pointOf(machine, hold.state);
  const ring = hold.ring.map((r) => circuit.latches[r] as Latch);
  const ids = ring.map((l) => l.id);
  const followers = hold.followers.map((r) => (circuit.latches[r] as Latch).id);
  const coils = hold.ring.map((r) => coilVolts(circuit, point.drives, r));
  const trace = traceThrough(circuit, point, coilElement(ring[0] as Latch));
  const unasked = loadsOnlyBecause(run, hold);
  const isSealIn = looksLikeSealIn(run, hold, trace);
  const harm = unasked.some((l) => l.harm !== "none");
  const severity: Severity = isSealIn ? "note" : harm ? "danger" : "fault";
  const first = coils[0] as (typeof coils)[number];
  const name = named(ids[0] ?? "", ring[0]?.label ?? "");
  return {
    subjects: ids,
    severity,
    run,
    at: hold.at,
    ends: hold.state.ends,
    isPossible: hold.kind === "caught" && caughtIn(run, hold)?.surely === false,
    where: [...ids, ...followers],
    path: terminalsOf(circuit, trace),
    title: titleOf(hold, name, ids, isSealIn),
    text: isSealIn
      ? `${name} stays in through its own contact until a switch is moved. This looks like a start and stop.`
      : `With ${standing(circuit, hold.state)} the coil of ${ids[0]} still gets ${volts(first.volts)}; it lets go for certain only below ${volts(first.releaseLeast)}.` +
        (unasked.length > 0
          ? ` So ${list(unasked.map(namedLoad))} stays on.`
          : followers.length > 0
            ? ` ${list(followers)} comes along with it.`
            : ""),
    remedy: isSealIn
      ? "Say so in the loom if it is meant."
      : "Find the path below and open it where nothing else needs it.",
    numbers: coils.map((c) => ({ name: `coil of ${c.id}`, value: c.volts, unit: "V", limit: c.releaseLeast })),
    harm,
    hold,
  };
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
  const released = withLatches(
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

/**
 * A start and stop: one relay, fed through its own contact and through conductors and gates only, that some single move
 * of a switch lets go in every case.
 */
function looksLikeSealIn(run: RunFacts, hold: Hold, trace: Trace): boolean {
  const { machine } = run;
  const { circuit } = machine;
  const [relay] = hold.ring;
  if (relay === undefined || hold.ring.length > 1 || hold.through === "leak") return false;
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
    const passage = m.passage && { ...m.passage, onwards: [] };
    const { landings } = settle(machine, m.start, { passage });
    return landings.length > 0 && landings.every((l) => l.state.latches[relay] === 0);
  });
}
