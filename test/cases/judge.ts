import { coveredFaults, RULES_OF_TODAY } from "./covered.ts";
import type { Expected } from "./expected.ts";

// How a report is held against what its circuit must show.

type Severity = "danger" | "fault" | "caution" | "note";

/** As much of a finding as the judge looks at. */
export interface FindingSeen {
  readonly id: string;
  readonly rule: string;
  readonly severity: Severity;
  readonly where: readonly string[];
  readonly path: readonly string[];
  readonly hold?: { readonly ring: readonly string[]; readonly followers: readonly string[] };
}

/** Rules that may find a fault, by its code. */
export type VerdictMap = Readonly<Record<string, readonly string[]>>;

export interface Verdict {
  readonly id: string;
  readonly title: string;
  /** What was expected: the rule that must speak, or silence. */
  readonly expects: string;
  readonly outcome: "found" | "missed" | "silent" | "false alarm";
  /** Ids of the findings that decided it. */
  readonly findings: readonly string[];
}

/** True if the rules of today are meant to judge this circuit. Twins and look-alikes always. */
export const isCovered = (e: Expected): boolean => e.variant !== "fault" || coveredFaults.some((c) => c.id === e.id);

/** A faulted circuit is found when a mapped rule speaks at its place, gravely enough; the others must be silent. */
export function judge(e: Expected, findings: readonly FindingSeen[], map: VerdictMap): Verdict {
  return e.variant === "fault" ? judgeFault(e, findings, map) : judgeSilence(e, findings);
}

function judgeFault(e: Expected, findings: readonly FindingSeen[], map: VerdictMap): Verdict {
  const found = e.faults.flatMap((fault) => {
    const rules = map[fault.code] ?? [];
    const enough: readonly Severity[] =
      fault.severity === "serious" ? ["danger", "fault"] : ["danger", "fault", "caution"];
    return findings.filter(
      (f) => rules.includes(f.rule) && enough.includes(f.severity) && placesOf(f).some((p) => fault.at.includes(p)),
    );
  });
  return {
    id: e.id,
    title: e.title,
    expects: coveredFaults.find((c) => c.id === e.id)?.rule ?? "",
    outcome: found.length > 0 ? "found" : "missed",
    findings: found.map((f) => f.id),
  };
}

/** Notes are free, and so is an end that the circuit really leaves open. */
function judgeSilence(e: Expected, findings: readonly FindingSeen[]): Verdict {
  const today: readonly string[] = RULES_OF_TODAY;
  const isOpenInCase = (f: FindingSeen): boolean => f.rule === "open-end" && f.path.some((t) => e.openEnds.includes(t));
  const loud = findings.filter((f) => today.includes(f.rule) && f.severity !== "note" && !isOpenInCase(f));
  return {
    id: e.id,
    title: e.title,
    expects: "silence",
    outcome: loud.length > 0 ? "false alarm" : "silent",
    findings: loud.map((f) => f.id),
  };
}

/** Parts a finding points at. */
function placesOf(f: FindingSeen): readonly string[] {
  const named = [...f.where, ...f.path, ...(f.hold?.ring ?? []), ...(f.hold?.followers ?? [])];
  return named.map((text) => text.split(".")[0] ?? text);
}
