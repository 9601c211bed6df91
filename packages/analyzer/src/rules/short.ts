import { pointOf } from "../behave/machine.ts";
import type { Circuit, Element } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { isCarrier, type Way, wayBetween } from "../facts/ways.ts";
import { amps, standing } from "../facts/words.ts";
import { shortExamples } from "./examples/short.ts";
import type { Rule, Sighting } from "./rule.ts";

export const short: Rule = {
  id: "short",
  title: "Feed meets ground",
  why: "In some position or with some relay in, the battery is joined to its own return with no load between. A fuse blows, or a wire burns.",
  source: "common practice, no source",
  severities: ["danger"],
  blindTo: "what happens in passing, while contacts are moving",
  examples: shortExamples,
  *check(facts) {
    for (const run of facts.runs)
      for (const { first, end, meets } of run.reachable.searches)
        for (let at = first; meets.has("short") && at < end; at++) {
          const sighting = sightingOf(run, at);
          if (sighting) yield sighting;
        }
  },
};

function sightingOf(run: RunFacts, at: number): Sighting | undefined {
  const { machine } = run;
  const { circuit } = machine;
  const state = run.wholeAt(at);
  const point = pointOf(machine, state);
  for (const pole of circuit.poles) {
    if (pole.way !== "feed" || point.closed[pole.source] !== 1) continue;
    const back = circuit.poles.find((p) => p.way === "return" && p.source === pole.source);
    const path =
      back === undefined
        ? undefined
        : wayBetween(circuit, pole.node, back.node, (e, i) => point.closed[i] === 1 && isCarrier(e, i) && !e.series);
    if (path === undefined) continue;
    const gate = lastGate(circuit, path);
    const subject = gate === undefined ? (circuit.nodes[pole.node] ?? "") : (circuit.nodes[gate.node] ?? "");
    const current = Math.abs(point.op.amps[pole.source] ?? 0);
    return {
      subjects: [subject],
      severity: "danger",
      run,
      at,
      ends: state.ends,
      where: [...new Set(path.elements.map((i) => (circuit.elements[i] as Element).owner.id))],
      path: path.nodes.map((n) => circuit.nodes[n] ?? "").filter((n) => !n.includes("/")),
      title: gate === undefined ? "Feed is joined to ground" : `Feed meets ground through ${gate.owner}`,
      text: `With ${standing(circuit, state)}, nothing lies between feed and ground. ${amps(current)} flow if no fuse opens.`,
      remedy: "Do not connect the battery; move the wire that joins the two.",
      numbers: [{ name: "current at the short", value: current, unit: "A" }],
      harm: true,
    };
  }
  return undefined;
}

/** The gate nearest to the return: the thing whose moving makes the short. */
function lastGate(circuit: Circuit, way: Way): { readonly owner: string; readonly node: number } | undefined {
  for (let k = way.elements.length - 1; k >= 0; k--) {
    const e = circuit.elements[way.elements[k] as number] as Element;
    if (e.class === "gate") return { owner: e.owner.id, node: way.nodes[k + 1] as number };
  }
  return undefined;
}
