import type { Circuit, Element, Load } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { loadsBehind } from "../facts/joined.ts";
import { type StayingOn, sourceOf, stayingOn } from "../facts/staying-on.ts";
import { terminalsOf } from "../facts/trace.ts";
import { type Unasked, voltsAcross } from "../facts/unasked.ts";
import { isUnswitched, reachedFrom, type Way, wayBetween } from "../facts/ways.ts";
import { list, named, namedLoad, standing } from "../facts/words.ts";
import { runsOnExamples } from "./examples/runs-on.ts";
import { inEveryState, type Rule, type Severity, type Sighting } from "./rule.ts";

export const runsOn: Rule = {
  id: "runs-on",
  title: "Something stays on after the key is off",
  why:
    "An alternator or a second battery feeds what the key should switch off. The engine runs on with the key in the " +
    "pocket, or a pump and a controller empty the battery overnight.",
  source: "common practice, no source",
  severities: ["danger", "fault", "note"],
  blindTo: "engines whose loom does not say what they need, and looms with no switch at all",
  examples: runsOnExamples,
  *check({ circuit, runs }) {
    yield* keysFedBehind(circuit);
    for (const run of runs) for (const staying of stayingOn(run)) yield stayingSighting(run, staying);
  },
};

function stayingSighting(run: RunFacts, { at, state, loads, engine, trace, unasked }: StayingOn): Sighting {
  const { circuit } = run.machine;
  const first = loads[0] as Load;
  const source = sourceOf(run.machine, trace)?.owner.id;
  const by = unasked === undefined ? [] : wayOf(circuit, unasked);
  const fed = `${source ?? "something"} still feeds ${words(loads)}${by.length > 0 ? ` through ${list(by)}` : ""}`;
  const name = engine === undefined ? "" : named(engine.part, engine.label);
  return {
    subjects: [source ?? first.part],
    // Electronics that remember by their own logic do what they were made for.
    severity: engine === undefined ? "note" : "danger",
    run,
    at,
    ends: state.ends,
    where: [
      ...new Set([
        ...(engine === undefined ? [] : [engine.part]),
        ...loads.map((l) => l.part),
        ...by,
        ...(source === undefined ? [] : [source]),
      ]),
    ],
    path: terminalsOf(circuit, trace),
    title: `${engine === undefined ? namedLoad(first) : name} ${engine === undefined ? "stays on" : "runs on"} after the key is off`,
    text:
      `With ${standing(circuit, state)}, ${fed}.` +
      (engine === undefined ? "" : ` So ${name} does not stop, and keeps ${source ?? "it"} going.`),
    remedy:
      by.length > 0
        ? `Put a diode before ${by[0]}, so that ${source ?? "it"} cannot feed ${first.part}.`
        : `Lead what ${source ?? "it"} feeds through a contact that the key opens, or put a diode or lamp in its way.`,
    numbers:
      unasked === undefined
        ? []
        : [{ name: `volts across ${first.part}`, value: voltsAcross(run, unasked), unit: "V" }],
    harm: engine !== undefined || loads.some((l) => l.harm !== "none"),
    ...(engine === undefined ? {} : { keeps: { state, engine, loads } }),
  };
}

/** What the current passes that was not meant to feed it. */
const wayOf = (circuit: Circuit, { cause, through }: Unasked): readonly string[] => [
  ...new Set((cause === undefined ? through : [cause]).map((i) => (circuit.elements[i] as Element).owner.id)),
];

const severityOf = (loads: readonly Load[]): Severity => (loads.some((l) => l.harm !== "none") ? "danger" : "fault");
const words = (loads: readonly Load[]): string => {
  const names = [...new Set(loads.map(namedLoad))];
  return names.length > 4 ? `${names.slice(0, 3).join(", ")} and ${names.length - 3} more` : list(names);
};

/** An output of the key that a battery feeds whatever the key does. */
function* keysFedBehind(circuit: Circuit): Iterable<Sighting> {
  const keys = new Set(circuit.inputs.filter((i) => i.isKey && !i.isMain).map((i) => i.id));
  const poles = circuit.poles.filter((p) => p.way === "feed" && circuit.elements[p.source]?.supply === "rest");
  const always = reachedFrom(
    circuit,
    poles.map((p) => p.node),
    "feed",
    isUnswitched,
  );
  for (const e of circuit.elements) {
    if (e.class !== "gate" || !keys.has(e.owner.id) || always[e.a] === 0 || always[e.b] === 0) continue;
    const node = outputEnd(circuit, e);
    const loads = loadsBehind(circuit, [node]);
    if (loads.length === 0) continue;
    const ways = poles.flatMap((p) => wayBetween(circuit, p.node, node, isUnswitched) ?? []);
    yield keySighting(circuit, e.owner.id, node, loads, ways.sort((a, b) => a.elements.length - b.elements.length)[0]);
  }
}

/** The end that fewer contacts of the key share: its feed is common to them. */
function outputEnd(circuit: Circuit, e: Element): number {
  const shares = (node: number) =>
    circuit.elements.filter((o) => o.owner.id === e.owner.id && (o.a === node || o.b === node)).length;
  return shares(e.a) < shares(e.b) ? e.a : e.b;
}

function keySighting(
  circuit: Circuit,
  key: string,
  node: number,
  loads: readonly Load[],
  way: Way | undefined,
): Sighting {
  const terminal = circuit.nodes[node] ?? "";
  const path = way === undefined ? [] : terminalsOf(circuit, way);
  const source = path[0] ?? "";
  return {
    ...inEveryState({
      subjects: [terminal],
      severity: severityOf(loads),
      where: [...new Set([key, ...loads.map((l) => l.part), source.slice(0, source.indexOf("."))])],
      path,
      title: `${key} does not switch off what hangs on ${terminal}`,
      text: `${source} feeds ${terminal} whatever the key does. ${words(loads)} stay${new Set(loads.map((l) => l.part)).size > 1 ? "" : "s"} on.`,
      remedy: `Take the second feed off ${terminal}.`,
    }),
    harm: loads.some((l) => l.harm !== "none"),
  };
}
