import { onState } from "../behave/loads.ts";
import { pointOf } from "../behave/machine.ts";
import type { Circuit } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { inputsOf, relaysIn } from "../facts/words.ts";
import { type Cuts, remedyOf } from "./cuts.ts";
import { digits } from "./digits.ts";
import type { Group } from "./groups.ts";
import { holdSeen } from "./hold-seen.ts";
import type { Finding, StateSeen } from "./report.ts";
import { storyOf } from "./story.ts";

/** A group in words and numbers. */
export function findingOf(
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
