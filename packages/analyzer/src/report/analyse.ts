import { type Loom, naturalOrder } from "@loomproof/netlist";
import { onState } from "../behave/loads.ts";
import { pointOf } from "../behave/machine.ts";
import { atOnce } from "../behave/slices.ts";
import type { Circuit } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { type Facts, factsOf, type RunFacts } from "../facts/facts.ts";
import { inputsOf, relaysIn } from "../facts/words.ts";
import { rules } from "../rules/index.ts";
import { isGraver, type Rule, SEVERITIES, type Severity, type Sighting } from "../rules/rule.ts";
import { coverageOf } from "./coverage.ts";
import { type Cut, type Cuts, cutsOf, type Held, heldBy, remedyOf } from "./cuts.ts";
import { digits } from "./digits.ts";
import { holdSeen } from "./hold-seen.ts";
import { intentsSeen, uncheckedIn } from "./intents.ts";
import { AT_LAST, inCuts, inRules, inRuns, type Progress, runWords } from "./progress.ts";
import type { Finding, Report, StateSeen } from "./report.ts";
import { storyOf } from "./story.ts";
import { type Strength, strengthOf } from "./strength.ts";

/** All sightings that make one finding. */
interface Group {
  readonly id: string;
  readonly rule: Rule;
  readonly sightings: readonly Sighting[];
  /** The one that is told: gravest, then in the usual run, then first. */
  readonly told: Sighting;
  readonly strength: Strength;
  readonly severity: Severity;
  readonly unknown: string | undefined;
}

/** Everything there is to say about a loom that has passed `parse`. */
export const analyse = (loom: Loom): Report => atOnce(analyseInSlices(loom));

/** The same, resting between searches, rules and proofs, so that a worker can tell how far it is. */
export function* analyseInSlices(loom: Loom): Generator<Progress, Report, void> {
  const circuit = compile(loom);
  const facts = factsOf(circuit);
  for (const [i, run] of facts.runs.entries()) {
    const says = `Every switch position, in every order: ${runWords(run)}`;
    for (const share of run.exploring()) yield { says, done: inRuns(i + share, facts.runs.length) };
    // Facts are computed on first asking; every loom is asked for these.
    run.holds();
  }
  const groups: Group[] = [];
  for (const [i, rule] of rules.entries()) {
    yield { says: rule.title, done: inRules(i, rules.length) };
    groups.push(...groupsBy(facts, rule));
  }
  const cuts = new Map<string, Cuts>();
  const held = groups.filter((g) => g.severity !== "note" && isToBeCut(g.told));
  for (const [i, g] of held.entries()) {
    const says = `What ends it: ${g.told.title}`;
    const slices = cutsOf(facts, heldOf(g));
    let next = slices.next();
    for (; !next.done; next = slices.next()) yield { says, done: inCuts(i + next.value, held.length) };
    cuts.set(g.id, next.value);
  }
  yield { says: "What comes along with what", done: AT_LAST };
  const under = consequencesOf(facts, groups, cuts);
  const accepted = new Map(loom.accepted.map((a) => [a.finding, a.reason]));
  const findings = groups.map((g) => findingOf(circuit, g, cuts.get(g.id), under, accepted.get(g.id)));
  const intents = intentsSeen(facts);
  return {
    format: "loomproof-report/1",
    title: loom.title ?? "",
    coverage: coverageOf(facts),
    findings: findings.sort(inOrder),
    couldNotCheck: uncheckedIn(intents),
    intents,
  };
}

/** No wire is opened for a start and stop that is only not moved as the owner says. */
const isToBeCut = ({ hold, keeps, doubt }: Sighting): boolean =>
  (hold !== undefined || keeps !== undefined) && (doubt === undefined || doubt.isHeldBeside);

/** What keeps itself going in a group, once a run, the told one first. */
function heldOf(g: Group): readonly Held[] {
  const byRun = new Map<RunFacts, Held>();
  for (const s of [g.told, ...g.sightings]) {
    const held = isToBeCut(s) ? heldBy(s) : undefined;
    if (held !== undefined && !byRun.has(held.run)) byRun.set(held.run, held);
  }
  return [...byRun.values()];
}

function groupsBy(facts: Facts, rule: Rule): readonly Group[] {
  return [...seenBy(facts, rule)].map(([id, sightings]) => groupOf(facts, rule, id, sightings));
}

/** Sightings by the finding that they make. */
function seenBy(facts: Facts, rule: Rule): ReadonlyMap<string, readonly Sighting[]> {
  const byId = new Map<string, Sighting[]>();
  for (const s of rule.check(facts)) {
    const id = `${rule.id}:${[...s.subjects].sort(naturalOrder).join("+")}`;
    const list = byId.get(id);
    if (list === undefined) byId.set(id, [s]);
    else list.push(s);
  }
  return byId;
}

function groupOf(facts: Facts, rule: Rule, id: string, sightings: readonly Sighting[]): Group {
  const told = toldOf(sightings);
  const strength = strengthOf(facts, sightings);
  const unknown = sightings.every((s) => s.run !== undefined && s.run.run.present.length > 0)
    ? sightings
        .map((s) => s.run?.run.present ?? [])
        .sort((a, b) => a.length - b.length)[0]
        ?.join(", ")
    : undefined;
  return {
    id,
    rule,
    sightings,
    told,
    strength,
    unknown,
    severity: unknown === undefined ? told.severity : lowered(told),
  };
}

/** The gravest, then in the usual run, then the first. Once one is as grave as can be, no other need be told. */
function toldOf(sightings: readonly Sighting[]): Sighting {
  const rank = (s: Sighting) =>
    s.run === undefined ? 0 : s.run.run.present.length * 10 + (s.run.run.corner === "usual" ? 0 : 1);
  const [first, ...others] = sightings.toSorted((a, b) => rank(a) - rank(b));
  let told = first as Sighting;
  for (const s of others) {
    if (told.severity === SEVERITIES.at(-1)) break;
    if (isGraver(s.severity, told.severity)) told = s;
  }
  return told;
}

/** What exists only because of an unknown is one step lower, never above fault unless it can crank, move, pump or burn. */
function lowered(told: Sighting): Severity {
  const step = SEVERITIES[Math.max(0, SEVERITIES.indexOf(told.severity) - 1)] ?? "note";
  return step === "danger" && !told.harm ? "fault" : step;
}

/**
 * A later finding folds under an earlier one if it is absent when the earlier one is cured by one of its gentlest cuts
 * (the harmless ones; else those that stop the fewest loads), or under what explains it. One whose only ground is an unknown pin folds under the
 * gravest of that pin: told once per unknown, not per place.
 */
function consequencesOf(
  facts: Facts,
  groups: readonly Group[],
  cuts: ReadonlyMap<string, Cuts>,
): ReadonlyMap<string, string> {
  const under = new Map<string, string>();
  groups.forEach((first, i) => {
    const { run } = first.told;
    const found = cuts.get(first.id);
    if (found === undefined || run === undefined || under.has(first.id)) return;
    const later = groups.slice(i + 1).filter((g) => g.told.run !== undefined && !under.has(g.id));
    // A rule that had nothing to say of the loom as it is need not be asked again.
    const asked = new Set(later.map((g) => g.rule));
    for (const cut of gentlest(found)) {
      const opened = facts.withOpen(cut.elements, new Set([run.run.id]));
      const left = new Set([...asked].flatMap((rule) => [...seenBy(opened, rule).keys()]));
      for (const g of later) if (!left.has(g.id)) under.set(g.id, first.id);
    }
  });
  for (const g of groups) {
    const cause = g.told.explainedBy;
    if (cause === undefined || under.has(g.id) || !groups.some((o) => o.id === cause)) continue;
    if (g.sightings.every((s) => s.explainedBy === cause)) under.set(g.id, under.get(cause) ?? cause);
  }
  for (const g of groups) {
    if (g.unknown === undefined || under.has(g.id)) continue;
    const first = groups.find((o) => o.unknown === g.unknown && !under.has(o.id));
    if (first !== undefined && first !== g) under.set(g.id, first.id);
  }
  return under;
}

function gentlest({ harmless, breaking }: Cuts): readonly Cut[] {
  const all = harmless.length > 0 ? harmless : breaking;
  const least = all[0];
  return least === undefined
    ? []
    : all.filter((c) => c.stops.length === least.stops.length && c.wires.length === least.wires.length);
}

function findingOf(
  circuit: Circuit,
  g: Group,
  cuts: Cuts | undefined,
  under: ReadonlyMap<string, string>,
  accepted: string | undefined,
): Finding {
  const { told } = g;
  const parent = under.get(g.id);
  return {
    id: g.id,
    rule: g.rule.id,
    severity: g.severity,
    strength: g.strength,
    runs: [...new Set(g.sightings.flatMap((s) => (s.run === undefined ? [] : [s.run.run.id])))],
    ...(g.unknown === undefined ? {} : { unknown: unknownWords(circuit, g.unknown) }),
    where: told.where,
    title: told.title,
    text: told.text,
    remedy: remedyOf(cuts, told),
    numbers: told.numbers.map((n) => ({
      ...n,
      value: digits(n.value),
      ...(n.limit === undefined ? {} : { limit: digits(n.limit) }),
    })),
    states: told.run && told.at !== undefined ? [stateSeen(told.run, told.at)] : [],
    moves: storyOf(told),
    ...(told.run && told.hold ? { hold: holdSeen(told.run, told.hold, isStanding(g)) } : {}),
    ...(cuts === undefined
      ? {}
      : {
          cuts: {
            harmless: cuts.harmless.map(({ wires, stops }) => ({ wires, stops })),
            breaking: cuts.breaking.map(({ wires, stops }) => ({ wires, stops })),
            untold: cuts.untold,
          },
        }),
    path: told.path,
    volts: told.run && told.at !== undefined ? voltsOn(told.run, told.at, told.path) : {},
    consequences: [...under].filter(([, first]) => first === g.id).map(([later]) => later),
    ...(parent === undefined ? {} : { under: parent }),
    ...(accepted === undefined ? {} : { accepted }),
  };
}

const unknownWords = (circuit: Circuit, tags: string): string => {
  const first = circuit.unknowns.find((u) => u.tag === tags);
  return first === undefined ? tags : `${first.part}: ${first.says}`;
};

// One that hangs on a race beside its ring stands only if that goes its way.
const isStanding = ({ sightings }: Group): boolean =>
  sightings.some((s) => s.hold?.kind === "standing" && s.isPossible !== true);

function stateSeen(run: RunFacts, at: number): StateSeen {
  const { machine } = run;
  const { circuit } = machine;
  const state = run.wholeAt(at);
  const point = pointOf(machine, state);
  const on = circuit.loads.filter((l) => l.judge.kind !== "latch" && onState(machine, state, point, l) === "on");
  return {
    inputs: inputsOf(circuit, state),
    in: relaysIn(circuit, state),
    on: [...new Set(on.map((l) => l.part))],
  };
}

function voltsOn(run: RunFacts, at: number, path: readonly string[]): Readonly<Record<string, number>> {
  const { circuit } = run.machine;
  const { volts } = pointOf(run.machine, run.wholeAt(at)).op;
  return Object.fromEntries(path.map((t) => [t, digits(volts[circuit.nodeOf.get(t) ?? 0] ?? 0)]));
}

function inOrder(a: Finding, b: Finding): number {
  const grave = SEVERITIES.indexOf(b.severity) - SEVERITIES.indexOf(a.severity);
  if (grave !== 0) return grave;
  if (a.strength !== b.strength) return a.strength === "certain" ? -1 : 1;
  return naturalOrder(a.id, b.id);
}
