import { pointOf } from "../behave/machine.ts";
import type { Circuit, Load } from "../circuit/circuit.ts";
import { doerOf } from "../facts/doing.ts";
import type { Breach, Compared } from "../facts/intents/breach.ts";
import { comparedIn } from "../facts/intents/compare.ts";
import { askedWords, partWords } from "../facts/intents/words.ts";
import { terminalsOf, traceThrough } from "../facts/trace.ts";
import { amps, seconds, standing } from "../facts/words.ts";
import { intentExamples } from "./examples/intent.ts";
import { type NumberFact, type Rule, type Severity, type Sighting, severityOfUnasked } from "./rule.ts";

export const intent: Rule = {
  id: "intent",
  title: "The loom does not do what its owner wants",
  why:
    "The file says what is wanted: on only in run, off soon after the key, little drain at rest, never together. Some " +
    "order of switching brings the loom to a state in which that is not so.",
  source: "given by the owner: the intents of the file",
  severities: ["danger", "fault", "caution"],
  blindTo:
    "what lasts only while relays move or the key passes; what is switched while a time runs; several things remembered " +
    "at once, in what the battery gives",
  examples: intentExamples,
  *check(facts) {
    for (const compared of comparedIn(facts)) yield* intentSightings(compared);
  },
};

/** Sightings of one intent that is not met; none of one that is. */
export const intentSightings = ({ intent, breaches }: Compared): readonly Sighting[] =>
  breaches.map((b) => sightingOf(intent.id, b));

function sightingOf(id: string, breach: Breach): Sighting {
  const { wish, how, run, at, ends, state } = breach;
  const { circuit } = run.machine;
  const load = loadOf(circuit, breach);
  const harm = load !== undefined && load.harm !== "none" && how.kind !== "not on";
  const told = words(circuit, breach);
  const trace =
    load && how.kind !== "not on" ? traceThrough(circuit, pointOf(run.machine, state), load.element) : undefined;
  return {
    subjects: [id],
    severity: severityOf(breach, harm),
    run,
    at,
    ends,
    where: [wish.kind === "below" ? wish.battery : wish.part, ...(how.kind === "together" ? [how.other] : [])],
    path: trace === undefined ? [] : terminalsOf(circuit, trace),
    title: told.title,
    text: `Wanted: ${askedWords(circuit, wish)}. With ${standing(circuit, state)}, ${told.but}.`,
    remedy: told.remedy,
    numbers: numbersOf(breach),
    harm,
    ...(how.kind === "not on" && wish.kind !== "below" ? { explainedBy: `unreachable:${wish.part}` } : {}),
  };
}

function severityOf({ how }: Breach, harm: boolean): Severity {
  switch (how.kind) {
    case "on":
    case "never goes off":
      return severityOfUnasked(how.on, harm);
    case "together":
    case "goes off late":
      return severityOfUnasked("on", harm);
    case "not on":
      return how.on === "partly" ? "caution" : "fault";
    case "gives":
      return "fault";
    default:
      return how satisfies never;
  }
}

/** The load whose current is shown: of what is wanted off; the largest of what a battery feeds. */
function loadOf(circuit: Circuit, { wish, run, state }: Breach): Load | undefined {
  if (wish.kind !== "below") {
    const doer = doerOf(circuit, wish.part);
    const first = doer?.kind === "loads" ? doer.loads[0] : undefined;
    return first === undefined ? circuit.loads.find((l) => l.part === wish.part) : circuit.loads[first];
  }
  const { op } = pointOf(run.machine, state);
  const draw = (l: Load) => Math.abs(op.amps[l.element] ?? 0);
  return circuit.loads.reduce<Load | undefined>((most, l) => (most && draw(most) >= draw(l) ? most : l), undefined);
}

interface Told {
  readonly title: string;
  /** How the second sentence goes on after the situation. */
  readonly but: string;
  readonly remedy: string;
}

function words(circuit: Circuit, { wish, how }: Breach): Told {
  const about = wish.kind === "below" ? `Battery ${wish.battery}` : partWords(circuit, wish.part);
  const off = "Follow its path and open it in this situation, or change the wish.";
  switch (how.kind) {
    case "on": {
      const is = how.on === "partly" ? "partly on" : "on";
      return { title: `Not as wanted: ${about} is ${is}`, but: `it is ${is}`, remedy: off };
    }
    case "not on": {
      const is = how.on === "partly" ? "only partly on" : "off";
      const remedy = "Follow its feed and its return in this situation, or change the wish.";
      return { title: `Not as wanted: ${about} is ${is}`, but: `it is ${is}`, remedy };
    }
    case "never goes off":
      return { title: `Not as wanted: ${about} never goes off`, but: "it stays on", remedy: off };
    case "goes off late":
      return {
        title: `Not as wanted: ${about} goes off late`,
        but: `it may stay on for ${seconds(how.seconds)}`,
        remedy: "Let what holds it up be shorter, or allow more time in the wish.",
      };
    case "gives":
      return {
        title: `Not as wanted: ${about} gives ${amps(how.amps)}`,
        but: `it gives ${amps(how.amps)}`,
        remedy: "Begin with the largest load of this situation, on the path shown.",
      };
    case "together": {
      const other = partWords(circuit, how.other);
      return {
        title: `Not as wanted: ${about} and ${other} together`,
        but: "both are on",
        remedy: "Lead the feed of the one through a rest contact of the other, or change the wish.",
      };
    }
    default:
      return how satisfies never;
  }
}

function numbersOf({ wish, how }: Breach): readonly NumberFact[] {
  if (how.kind === "gives" && wish.kind === "below")
    return [{ name: "from the battery", value: how.amps, unit: "A", limit: wish.amps }];
  if (how.kind === "goes off late" && wish.kind === "off within")
    return [{ name: "stays on", value: how.seconds, unit: "s", limit: wish.seconds }];
  return [];
}
