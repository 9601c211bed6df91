import { extraRelays } from "../behave/cold.ts";
import { onState } from "../behave/loads.ts";
import { pointOf, within } from "../behave/machine.ts";
import type { State } from "../behave/state.ts";
import type { Circuit, Element, Load } from "../circuit/circuit.ts";
import { coldRest } from "../facts/cold.ts";
import type { RunFacts } from "../facts/facts.ts";
import { loadsBehind } from "../facts/joined.ts";
import { terminalsOf, traceThrough } from "../facts/trace.ts";
import { isUnswitched, reachedFrom, type Way, wayBetween } from "../facts/ways.ts";
import { list, namedLoad, standing } from "../facts/words.ts";
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
    for (const run of runs) yield* remembered(run);
  },
};

/** The key; without one, main switches; without those, every hand switch. */
function offSwitches(circuit: Circuit): readonly number[] {
  const where = (is: (i: Circuit["inputs"][number]) => boolean) =>
    circuit.inputs.flatMap((input, i) => (is(input) ? [i] : []));
  const keys = where((i) => i.isKey && !i.isMain);
  const mains = where((i) => i.isMain === true);
  return keys.length > 0 ? keys : mains.length > 0 ? mains : where((i) => i.kind === "switch");
}

/** Off, nothing requested, and the world as usual; an engine may turn only if it needs what is being looked at. */
function isOff(circuit: Circuit, off: readonly number[], state: State): boolean {
  const needy = new Set(circuit.works.filter((w) => w.needs.length > 0).map((w) => w.part));
  return circuit.inputs.every(
    (input, i) =>
      state.stands[i] === input.usual ||
      (input.kind === "world" ? needy.has(input.id) : input.kind === "switch" && !off.includes(i)),
  );
}

/**
 * On at rest with the key off, by designed feed, though off when power comes on with the key so. Holds of relays and
 * what is on unasked are told by their own rules.
 */
function* remembered(run: RunFacts): Iterable<Sighting> {
  const { machine, reachable } = run;
  const { circuit } = machine;
  const off = offSwitches(circuit);
  if (off.length === 0) return;
  for (const [at, { state, rest }] of reachable.found.entries()) {
    if (!rest || !isOff(circuit, off, state)) continue;
    const on = run.loadsAt(at).filter((f) => f.on === "on" && f.asked && f.load.judge.kind !== "latch");
    if (on.length === 0 || within(run.searchOf(at).machine, (m) => extraRelays(m, state)).length > 0) continue;
    const cold = coldRest(machine, state);
    const kept = on.filter(({ load }) => cold.every((s) => onState(machine, s, pointOf(machine, s), load) === "off"));
    if (kept.length > 0)
      yield rememberedSighting(
        run,
        at,
        state,
        kept.map((f) => f.load),
      );
  }
}

function rememberedSighting(run: RunFacts, at: number, state: State, loads: readonly Load[]): Sighting {
  const { machine } = run;
  const { circuit } = machine;
  const first = loads.find((l) => l.harm !== "none") ?? (loads[0] as Load);
  const trace = traceThrough(circuit, pointOf(machine, state), first.element);
  const source = trace.elements.map((i) => circuit.elements[i] as Element).find((e) => e.class === "source");
  const turns = circuit.works.some((w) => w.needs.length > 0 && state.latches[w.latch] === 1);
  return {
    subjects: [source?.owner.id ?? first.part],
    // Electronics that remember by their own logic do what they were made for.
    severity: turns ? severityOf(loads) : "note",
    run,
    at,
    ends: state.ends,
    where: [...new Set([...loads.map((l) => l.part), ...(source === undefined ? [] : [source.owner.id])])],
    path: terminalsOf(circuit, trace),
    title: `${namedLoad(first)} stays on after the key is off`,
    text: `With ${standing(circuit, state)}, ${source?.owner.id ?? "something"} still feeds ${words(loads)}.`,
    remedy: `Lead what ${source?.owner.id ?? "it"} feeds through a contact that the key opens, or put a diode or lamp in its way.`,
    numbers: [],
    harm: loads.some((l) => l.harm !== "none"),
  };
}

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
