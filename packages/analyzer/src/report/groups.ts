import { naturalOrder } from "@loomproof/netlist";
import type { Facts, RunFacts } from "../facts/facts.ts";
import { isGraver, type Rule, SEVERITIES, type Severity, type Sighting } from "../rules/rule.ts";
import { type Held, heldBy } from "./cuts.ts";
import { type Strength, strengthOf } from "./strength.ts";

/** All sightings that make one finding. */
export interface Group {
  readonly id: string;
  readonly rule: Rule;
  readonly sightings: readonly Sighting[];
  /** The one that is told: gravest, then in the usual run, then first. */
  readonly told: Sighting;
  readonly strength: Strength;
  readonly severity: Severity;
  readonly unknown: string | undefined;
}

/** What one rule finds. */
export function groupsBy(facts: Facts, rule: Rule): readonly Group[] {
  return [...seenBy(facts, rule)].map(([id, sightings]) => groupOf(facts, rule, id, sightings));
}

/** Sightings by the finding that they make. */
export function seenBy(facts: Facts, rule: Rule): ReadonlyMap<string, readonly Sighting[]> {
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

/** No wire is opened for a start and stop that is only not moved as the owner says. */
const isToBeCut = ({ hold, keeps, doubt }: Sighting): boolean =>
  (hold !== undefined || keeps !== undefined) && (doubt === undefined || doubt.isHeldBeside);

/** Something that keeps itself going, and that wires are opened to end. */
export const isHeld = ({ severity, told }: Group): boolean => severity !== "note" && isToBeCut(told);

/** What keeps itself going in a group, once a run, the told one first. */
export function heldOf(g: Group): readonly Held[] {
  const byRun = new Map<RunFacts, Held>();
  for (const s of [g.told, ...g.sightings]) {
    const held = isToBeCut(s) ? heldBy(s) : undefined;
    if (held !== undefined && !byRun.has(held.run)) byRun.set(held.run, held);
  }
  return [...byRun.values()];
}
