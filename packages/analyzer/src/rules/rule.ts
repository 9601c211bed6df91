import type { Loom } from "@loomproof/netlist";
import type { WorldMove } from "../behave/explore.ts";
import type { Event } from "../behave/flight.ts";
import type { Hold } from "../behave/hold.ts";
import type { On } from "../behave/loads.ts";
import { once } from "../behave/once.ts";
import type { State } from "../behave/state.ts";
import type { Load, Work } from "../circuit/circuit.ts";
import type { Facts, RunFacts } from "../facts/facts.ts";
import type { Doubt } from "../facts/seal-in.ts";
import { keepsEngineBy } from "../facts/staying-on.ts";
import type { Unasked } from "../facts/unasked.ts";

export type Severity = "danger" | "fault" | "caution" | "note";

/** Least grave first. */
export const SEVERITIES: readonly Severity[] = ["note", "caution", "fault", "danger"];
export const isGraver = (a: Severity, b: Severity): boolean => SEVERITIES.indexOf(a) > SEVERITIES.indexOf(b);

/** Something on unasked: half-on is a caution; on, it depends on what it can do. */
export const severityOfUnasked = (on: On, harm: boolean): Severity =>
  on === "partly" ? "caution" : harm ? "danger" : "fault";

/** What is on by the current that keeps an engine running is told as that: the engine runs on. */
export function explained(facts: Facts, run: RunFacts, u: Unasked): Pick<Sighting, "explainedBy"> {
  const source = keepsEngineBy(facts, run, u);
  return source === undefined ? {} : { explainedBy: `runs-on:${source}` };
}

/** A number that a finding rests on. */
export interface NumberFact {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly limit?: number | undefined;
}

/** A move from a found state, -1 for power coming on, and what happens then, in words and where it is of use. */
interface After {
  readonly from: number;
  readonly move: WorldMove;
  readonly events?: readonly Event[];
  readonly says: readonly string[];
}

/** An engine that runs on in a state, with loads that it needs among those that stay on. */
interface KeptEngine {
  readonly state: State;
  readonly engine: Work;
  readonly loads: readonly Load[];
}

/** One sighting of a finding: in one run, in one found state. The same subjects make the same finding. */
export interface Sighting {
  readonly subjects: readonly string[];
  readonly severity: Severity;
  readonly run: RunFacts | undefined;
  /** Found state, or undefined for what is wrong in every state or never comes to rest. */
  readonly at: number | undefined;
  /** Ends of the thresholds that the history hangs on. */
  readonly ends: Uint8Array | undefined;
  /** The move after which it is seen, before all is quiet again, and what happens then. */
  readonly after?: After;
  /** It hangs on times as well: they allow it, and do not enforce it. */
  readonly isPossible?: boolean;
  readonly where: readonly string[];
  readonly path: readonly string[];
  readonly title: string;
  /** At most two sentences. */
  readonly text: string;
  /** One sentence: what to do first. */
  readonly remedy: string;
  readonly numbers: readonly NumberFact[];
  readonly harm: boolean;
  readonly hold?: Hold;
  /** An engine that its own alternator keeps running. */
  readonly keeps?: KeptEngine;
  /** Why the hold is not what the owner says is meant. */
  readonly doubt?: Doubt;
  /** A finding that, if it is made as well, explains this one in full. */
  readonly explainedBy?: string;
}

/** A sighting of what is so whatever is switched. */
export const inEveryState = (
  told: Pick<Sighting, "subjects" | "severity" | "where" | "path" | "title" | "text" | "remedy">,
): Sighting => ({ ...told, run: undefined, at: undefined, ends: undefined, numbers: [], harm: false });

type Told = Pick<Sighting, "severity" | "where" | "path" | "title" | "text" | "remedy" | "numbers" | "harm">;

/** A sighting whose words are worked out once asked for: of a group only the first of the gravest is told. */
export function toldLater(seen: Omit<Sighting, keyof Told>, tell: () => Told): Sighting {
  const told = once(tell);
  return {
    ...seen,
    get severity() {
      return told().severity;
    },
    get where() {
      return told().where;
    },
    get path() {
      return told().path;
    },
    get title() {
      return told().title;
    },
    get text() {
      return told().text;
    },
    get remedy() {
      return told().remedy;
    },
    get numbers() {
      return told().numbers;
    },
    get harm() {
      return told().harm;
    },
  };
}

/** A rule is one small file: a fact about the loom that a careful electrician would want to hear. */
export interface Rule {
  readonly id: string;
  readonly title: string;
  /** What happens in the vehicle, when, and how bad. */
  readonly why: string;
  /** A published source or the mark of the house. */
  readonly source: string;
  readonly severities: readonly Severity[];
  /** What this rule cannot see; said to the user. */
  readonly blindTo: string;
  /**
   * At least one faulty loom, one clean, and one with too little given: tests and manual at once. All invented. Made on
   * asking: to read them all takes longer than many a check.
   */
  readonly examples: () => readonly RuleExample[];
  readonly check: (facts: Facts) => Iterable<Sighting>;
}

export interface RuleExample {
  readonly title: string;
  readonly loom: Loom;
  /** Every finding of this rule, as "severity strength id". */
  readonly expects: readonly string[];
}
