import type { Loom } from "@loomproof/netlist";
import { atOnce } from "../behave/slices.ts";
import { compile } from "../circuit/compile.ts";
import { among, factsOf } from "../facts/facts.ts";
import { rules } from "../rules/index.ts";
import { consequencesOf } from "./consequences.ts";
import { coverageOf } from "./coverage.ts";
import { type Cuts, cutsOf } from "./cuts.ts";
import { findingOf } from "./finding.ts";
import { type Group, groupsBy, heldOf, isHeld } from "./groups.ts";
import { intentsSeen, uncheckedIn } from "./intents.ts";
import { AT_LAST, inCuts, inRules, inRuns, type Progress, runWords, type SoFar } from "./progress.ts";
import { byGravity, type Finding, type Report } from "./report.ts";

/** Everything there is to say about a loom that has passed `parse`. */
export const analyse = (loom: Loom): Report => atOnce(analyseInSlices(loom));

export interface AnalyseOptions {
  /** Tells what the usual run finds before the others are walked: much sooner, for a little more work in all. */
  readonly early?: boolean;
}

/** The same, resting between searches, rules and proofs, so that a worker can tell how far it is and what was found. */
export function* analyseInSlices(
  loom: Loom,
  { early = false }: AnalyseOptions = {},
): Generator<Progress, Report, void> {
  const circuit = compile(loom);
  const facts = factsOf(circuit);
  const accepted = new Map(loom.accepted.map((a) => [a.finding, a.reason]));
  const cuts = new Map<string, Cuts>();
  const told = (groups: readonly Group[], under: ReadonlyMap<string, string>): readonly Finding[] =>
    groups.map((g) => findingOf(circuit, g, cuts.get(g.id), under, accepted.get(g.id))).sort(byGravity);
  const soFar = (groups: readonly Group[], ofAllRuns: boolean): SoFar => ({
    findings: told(groups, consequencesOf(facts, groups, new Map())),
    uncut: groups.filter((g) => isHeld(g) && !cuts.has(g.id)).map((g) => g.id),
    ofAllRuns,
  });
  for (const [i, run] of facts.runs.entries()) {
    const says = `Every switch position, in every order: ${runWords(run)}`;
    for (const share of run.exploring()) yield { says, done: inRuns(i + share, facts.runs.length) };
    // Facts are computed on first asking; every loom is asked for these.
    run.holds();
    if (!early || i > 0 || facts.runs.length === 1) continue;
    const usual = among(facts, [run]);
    const first: Group[] = [];
    for (const rule of rules) {
      yield { says, done: inRuns(1, facts.runs.length) };
      first.push(...groupsBy(usual, rule));
    }
    yield { says, done: inRuns(1, facts.runs.length), found: () => soFar(first, false) };
  }
  const groups: Group[] = [];
  for (const [i, rule] of rules.entries()) {
    yield { says: rule.title, done: inRules(i, rules.length) };
    groups.push(...groupsBy(facts, rule));
  }
  const held = groups.filter(isHeld);
  const found = () => soFar(groups, true);
  for (const [i, g] of held.entries()) {
    const says = `What ends it: ${g.told.title}`;
    yield { says, done: inCuts(i, held.length), found };
    const slices = cutsOf(facts, heldOf(g));
    let next = slices.next();
    for (; !next.done; next = slices.next()) yield { says, done: inCuts(i + next.value, held.length) };
    cuts.set(g.id, next.value);
  }
  yield { says: "What comes along with what", done: AT_LAST, found };
  const findings = told(groups, consequencesOf(facts, groups, cuts));
  const intents = intentsSeen(facts);
  return {
    format: "loomproof-report/1",
    title: loom.title ?? "",
    coverage: coverageOf(facts),
    findings,
    couldNotCheck: uncheckedIn(intents),
    intents,
  };
}
