import { naturalOrder } from "@loomproof/netlist";
import { type NumberFact, SEVERITIES, type Severity } from "../rules/rule.ts";
import type { Strength } from "./strength.ts";

/** The tool's answer about one loom. The JSON of `prove --json`, published as a schema. */
export interface Report {
  readonly format: "loomproof-report/1";
  readonly title: string;
  readonly coverage: Coverage;
  readonly findings: readonly Finding[];
  readonly couldNotCheck: readonly CouldNotCheck[];
  readonly intents: readonly IntentSeen[];
}

/** An intent of the owner against what the loom does. */
export interface IntentSeen {
  readonly id: string;
  /** What is wanted, in words; one a wish. */
  readonly says: readonly string[];
  readonly verdict: "met" | "not met" | "could not check";
  /** Whether it is broken whatever the relays and times are; only of what is not met. */
  readonly strength?: Strength;
  /** The finding that tells of it; only of what is not met. */
  readonly finding?: string;
  /** What would have to be known; only of what could not be checked. */
  readonly missing?: readonly string[];
}

export interface Coverage {
  readonly complete: boolean;
  /** What was not looked at, in words. */
  readonly left: readonly string[];
  readonly counts: { readonly runs: number; readonly states: number; readonly solves: number };
}

/** Something of the file that no verdict rests on, told so that nobody relies on it. */
export interface CouldNotCheck {
  readonly value: string;
  readonly at: string;
  readonly rules: readonly string[];
}

export interface StateSeen {
  readonly inputs: Readonly<Record<string, string>>;
  /** Relays that are in. */
  readonly in: readonly string[];
  /** Loads and modules that are on. */
  readonly on: readonly string[];
}

export interface MoveSeen {
  readonly set: Readonly<Record<string, string>>;
  readonly then: readonly string[];
  /** The hand turned an input straight on, before all was quiet: when it can have been, in ms after the move. */
  readonly straightOn?: {
    readonly input: string;
    readonly position: string;
    readonly least: number;
    readonly most: number;
  };
}

export interface HoldSeen {
  readonly ring: readonly string[];
  readonly followers: readonly string[];
  readonly kind: "standing" | "caught" | "leak";
  /** Of a caught hold: what moved in time, as id and in words, and how many ms before the relay would have let go. */
  readonly margin?: {
    readonly says: string;
    readonly by: string;
    readonly relay: string;
    readonly least: number;
    readonly most: number;
  };
  readonly coil: readonly {
    readonly id: string;
    readonly volts: number;
    readonly releaseLeast: number;
    readonly releaseMost: number;
  }[];
}

export interface CutSeen {
  readonly wires: readonly string[];
  /** Loads that no longer work with them open; empty for a harmless cut. */
  readonly stops: readonly string[];
}

export interface Finding {
  /** Rule and subjects, without numbers: remarks, acceptance and comparison hang on it. */
  readonly id: string;
  readonly rule: string;
  readonly severity: Severity;
  readonly strength: Strength;
  readonly runs: readonly string[];
  /** The unknown pin without which it would not be there. */
  readonly unknown?: string;
  readonly where: readonly string[];
  readonly title: string;
  readonly text: string;
  readonly remedy: string;
  readonly numbers: readonly NumberFact[];
  readonly states: readonly StateSeen[];
  readonly moves: readonly MoveSeen[];
  readonly hold?: HoldSeen;
  readonly cuts?: {
    readonly harmless: readonly CutSeen[];
    readonly breaking: readonly CutSeen[];
    readonly untold: number;
  };
  readonly path: readonly string[];
  /** Volts of each terminal on the path, over the reference, in the state shown. */
  readonly volts: Readonly<Record<string, number>>;
  /** Findings that go when this one's smallest cut is made. */
  readonly consequences: readonly string[];
  /** Set on a consequence: the finding that it folds under. */
  readonly under?: string;
  readonly accepted?: string;
}

/** The order in which findings are told: the gravest first, of these what is certain. */
export function byGravity(a: Finding, b: Finding): number {
  const grave = SEVERITIES.indexOf(b.severity) - SEVERITIES.indexOf(a.severity);
  if (grave !== 0) return grave;
  if (a.strength !== b.strength) return a.strength === "certain" ? -1 : 1;
  return naturalOrder(a.id, b.id);
}
