import type { Case, CaseFault, CaseStep } from "./case-types.ts";
import { positionsOf } from "./switch.ts";
import { openEndsOf, terminalNames } from "./terminals.ts";
import { inputIds } from "./world.ts";

/** What a circuit must show. Terminals and parts are named as in the converted loom. */
export interface Expected {
  readonly id: string;
  readonly title: string;
  readonly variant: Case["variant"];
  /** The same circuit repaired, or before its repair. */
  readonly twin: string | null;
  readonly verdict: "fault" | "clean";
  readonly faults: readonly ExpectedFault[];
  /** Codes of what may be told as a note. */
  readonly notesAllowed: readonly string[];
  /** Terminals that the circuit itself leaves open although the part needs a wire there. */
  readonly openEnds: readonly string[];
  /** Where every input stands before the first step. */
  readonly start: Readonly<Record<string, string>>;
  readonly steps: readonly ExpectedStep[];
}

interface ExpectedFault {
  readonly code: string;
  readonly severity: CaseFault["severity"];
  /** Parts at which a finding of this fault may stand. */
  readonly at: readonly string[];
  readonly steps: readonly number[];
  readonly path: readonly string[];
}

/** One step of the history: state carries over from the step before. */
interface ExpectedStep {
  /** Inputs moved together at the start of the step. */
  readonly set: Readonly<Record<string, string>>;
  /** Settled: relays, loads and states of modules. */
  readonly states: Readonly<Record<string, string>>;
  readonly oscillates?: boolean;
  /** "P.t:Q.u": volts of the first terminal over the second. */
  readonly volts: Readonly<Record<string, number>>;
  /** Fuses from a to b, batteries discharging, amps. */
  readonly amps: Readonly<Record<string, number>>;
}

export function expectedOf(one: Case): Expected {
  const name = terminalNames(one);
  const pair = (key: string): string => key.split(":").map(name).join(":");
  const { faults, notes_allowed, verdict } = one.expected;
  return {
    id: one.id,
    title: one.title,
    variant: one.variant,
    twin: one.twin,
    verdict,
    faults: faults.map((f) => ({
      code: f.code,
      severity: f.severity,
      at: f.at,
      steps: f.shown_in_steps,
      path: f.path.map(name),
    })),
    notesAllowed: notes_allowed.map((n) => n.code),
    openEnds: openEndsOf(one),
    start: Object.fromEntries(inputIds(one).map((id) => [id, one.inputs[id]?.start ?? ""])),
    steps: one.steps
      .filter((s) => canStand(one, s))
      .map((s) => ({
        set: s.set,
        states: s.states,
        ...(s.oscillates ? { oscillates: true } : {}),
        volts: Object.fromEntries(Object.entries(s.volts ?? {}).map(([key, v]) => [pair(key), v])),
        amps: s.amps ?? {},
      })),
  };
}

/** False for a step that holds a switch between two positions, where the loom only passes through. */
const canStand = (one: Case, step: CaseStep): boolean =>
  one.parts.every((p) => {
    const value = step.set[p.id];
    return p.kind !== "switch" || value === undefined || positionsOf(p).positions.includes(value);
  });
