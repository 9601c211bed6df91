import { byGravity, type Finding, type Report, type SoFar } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { isTouched, touchedSince } from "./stale.ts";

/** A finding in the list, with the loom that it is about. */
export interface Listed {
  readonly finding: Finding;
  readonly loom: Loom;
  /** It is not known yet what ends it. */
  readonly isUncut: boolean;
  /** It is not known yet whether it is so with all that parts and pins may be. */
  readonly isUnsure: boolean;
}

export const listedIn = ({ findings }: Report, loom: Loom): readonly Listed[] =>
  findings.map((finding) => ({ finding, loom, isUncut: false, isUnsure: false })).sort(inOrder);

/** Of what is as grave, first what keeps itself going: much of the rest comes along with that. */
function inOrder(a: Listed, b: Listed): number {
  const isHeld = ({ finding, isUncut }: Listed) => (isUncut || finding.cuts !== undefined ? 1 : 0);
  const isAlike = a.finding.severity === b.finding.severity;
  return (isAlike ? isHeld(b) - isHeld(a) : 0) || byGravity(a.finding, b.finding);
}

/** Whether what a finding is about was edited since. */
export const isStale = ({ finding, loom }: Listed, now: Loom | undefined): boolean =>
  isTouched(finding, touchedSince(loom, now));

/**
 * The list while a loom is checked. What was told before and is not touched since keeps its look. What comes along with
 * what is known last: until then it stays folded as it was, so that the list does not open and close again.
 */
export function listedSoFar(before: readonly Listed[], soFar: SoFar, loom: Loom): readonly Listed[] {
  const known = new Map(before.map((l) => [l.finding.id, l]));
  const found = new Set(soFar.findings.map((f) => f.id));
  const uncut = new Set(soFar.uncut);
  const list = soFar.findings.map((finding): Listed => {
    const old = known.get(finding.id);
    if (old !== undefined && !old.isUncut && !old.isUnsure && !isStale(old, loom)) return old;
    const fresh = { finding, loom, isUncut: uncut.has(finding.id), isUnsure: !soFar.ofAllRuns };
    return old === undefined ? fresh : { ...fresh, finding: foldedLike(old.finding, finding) };
  });
  // What only a later run may show stays until that is looked at.
  const left = soFar.ofAllRuns ? [] : before.filter((l) => !found.has(l.finding.id));
  return folded([...list, ...left]).sort(inOrder);
}

const foldedLike = ({ under }: Finding, finding: Finding): Finding =>
  finding.under !== undefined || under === undefined ? finding : { ...finding, under };

/** Nothing is folded under what is not there, and what is folded is named above it. */
function folded(list: readonly Listed[]): Listed[] {
  const ids = new Set(list.map((l) => l.finding.id));
  const unfolded = list.map((l): Listed => {
    const { under, ...finding } = l.finding;
    return under === undefined || ids.has(under) ? l : { ...l, finding };
  });
  return unfolded.map((l): Listed => {
    const { id, consequences } = l.finding;
    const now = unfolded.flatMap(({ finding }) => (finding.under === id ? [finding.id] : []));
    const isSame = now.length === consequences.length && now.every((c) => consequences.includes(c));
    return isSame ? l : { ...l, finding: { ...l.finding, consequences: now } };
  });
}
