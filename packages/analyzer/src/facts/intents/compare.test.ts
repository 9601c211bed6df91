import type { Loom } from "@loomproof/netlist";
import fc from "fast-check";
import { expect, test } from "vitest";
import { runsOf } from "../../behave/runs.ts";
import type { State } from "../../behave/state.ts";
import type { Circuit } from "../../circuit/circuit.ts";
import { compile } from "../../circuit/compile.ts";
import { plainWalk } from "../../testing/every-state.ts";
import { anyLoom } from "../../testing/random-loom.ts";
import { doerOf, doingIn } from "../doing.ts";
import { factsOf, type RunFacts } from "../facts.ts";
import { given } from "./at-rest.ts";
import { comparedIn } from "./compare.ts";

// An intent is taken from what the loom really does, by the plain search that moves everything at once. It must be met;
// its contrary must not be. The intents themselves are judged by scopes.

type Intent = Loom["intents"][number];
type Verdict = "met" | "not met" | "could not check";

const usualFacts = (loom: Loom, isPlain: boolean) => {
  const circuit = compile(loom);
  const runs = runsOf(circuit).slice(0, 1);
  return factsOf(circuit, isPlain ? { runs, walk: plainWalk } : { runs });
};

function verdicts(loom: Loom, intents: readonly Intent[]): readonly Verdict[] {
  const numbered = intents.map((i, k) => ({ ...i, id: String(k) }));
  return comparedIn(usualFacts({ ...loom, intents: numbered }, false)).map(({ breaches, missing }) =>
    breaches.length > 0 ? "not met" : missing.length > 0 ? "could not check" : "met",
  );
}

const standsOf = (circuit: Circuit, s: State): Record<string, string> =>
  Object.fromEntries(circuit.inputs.map((input, i) => [input.id, input.stands[s.stands[i] ?? 0] ?? ""]));

/** An output of unknown logic acts. */
const isAsked = (circuit: Circuit, s: State): boolean =>
  circuit.inputs.some(
    (input, i) =>
      input.kind === "request" &&
      s.stands[i] !== input.usual &&
      input.heededBy?.some((l) => s.latches[l] === 1) !== false,
  );

/** States in which the inputs stand alike. */
function byStands(circuit: Circuit, states: readonly State[]): readonly (readonly State[])[] {
  const by = new Map<string, State[]>();
  for (const s of states) {
    const key = JSON.stringify(standsOf(circuit, s));
    by.set(key, [...(by.get(key) ?? []), s]);
  }
  return [...by.values()];
}

interface Case {
  readonly intent: Intent;
  readonly expects: Verdict;
}

const partsOf = (circuit: Circuit): readonly string[] => [
  ...new Set(circuit.loads.flatMap((l) => (l.family === "module" ? [] : [l.part]))),
];

/** On only where it is on, or half on; and without one of those situations. */
function onlyWhereOn({ circuit }: { readonly circuit: Circuit }, run: RunFacts): readonly Case[] {
  const rests = run.reachable.found.filter((f) => f.rest).map((f) => f.state);
  return partsOf(circuit).flatMap((load): readonly Case[] => {
    const doer = doerOf(circuit, load);
    if (doer === undefined) return [];
    const on = new Map(
      rests
        .filter((s) => doingIn(run, s, doer) !== "off")
        .map((s) => [JSON.stringify(standsOf(circuit, s)), standsOf(circuit, s)]),
    );
    const all = [...on.values()];
    const less = all.slice(1);
    return [
      { intent: { id: "", load, onOnlyWhen: all }, expects: "met" },
      ...(all.length === 0 ? [] : [{ intent: { id: "", load, onOnlyWhen: less }, expects: "not met" as const }]),
    ];
  });
}

/** On only with one switch closed, whatever else stands as it likes: so if every state in which it is on has that. */
function onlyWithSwitch({ circuit }: { readonly circuit: Circuit }, run: RunFacts): readonly Case[] {
  const rests = run.reachable.found.filter((f) => f.rest).map((f) => f.state);
  const switches = circuit.inputs.filter((i) => i.kind === "switch");
  return partsOf(circuit).flatMap((load) => {
    const doer = doerOf(circuit, load);
    if (doer === undefined) return [];
    const on = rests.filter((s) => doingIn(run, s, doer) !== "off");
    return switches.map(({ id }): Case => {
      const against = on.filter((s) => standsOf(circuit, s)[id] !== "closed");
      const isUnknown = against.length > 0 && against.every((s) => isAsked(circuit, s));
      const expects = against.length === 0 ? "met" : isUnknown ? "could not check" : "not met";
      return { intent: { id: "", load, onOnlyWhen: [{ [id]: "closed" }] }, expects };
    });
  });
}

/** On where it is on whatever was before; not so where some rest state has it off or half on. */
function onWhereOn({ circuit }: { readonly circuit: Circuit }, run: RunFacts): readonly Case[] {
  const rests = run.reachable.found.filter((f) => f.rest).map((f) => f.state);
  return partsOf(circuit).flatMap((load) => {
    const doer = doerOf(circuit, load);
    if (doer === undefined) return [];
    return byStands(circuit, rests)
      .slice(0, 6)
      .map((states): Case => {
        const isOn = states.every((s) => doingIn(run, s, doer) === "on");
        const intent = { id: "", load, onWhen: [standsOf(circuit, states[0] as State)] };
        return { intent, expects: isOn ? "met" : "not met" };
      });
  });
}

/** Two that are on together in some state, and two that never are. */
function together({ circuit }: { readonly circuit: Circuit }, run: RunFacts): readonly Case[] {
  const parts = partsOf(circuit);
  const isOn = (part: string, s: State) => {
    const doer = doerOf(circuit, part);
    return doer !== undefined && doingIn(run, s, doer) === "on";
  };
  return parts.flatMap((load, k) =>
    parts.slice(k + 1, k + 3).map((other): Case => {
      const both = run.reachable.found.map((f) => f.state).filter((s) => isOn(load, s) && isOn(other, s));
      const expects =
        both.length === 0 ? "met" : both.every((s) => isAsked(circuit, s)) ? "could not check" : "not met";
      return { intent: { id: "", load, neverWith: [other] }, expects };
    }),
  );
}

/** A little more than the battery ever gives with these switches. */
function below({ circuit }: { readonly circuit: Circuit }, run: RunFacts): readonly Case[] {
  const rests = run.reachable.found.filter((f) => f.rest).map((f) => f.state);
  return byStands(circuit, rests)
    .slice(0, 6)
    .flatMap((states): readonly Case[] => {
      const amps = states.map((s) => given(run, s, "G1"));
      const when = [standsOf(circuit, states[0] as State)];
      const limit = (by: number, of: number) => `${(by * of + 1e-6).toFixed(7)} A`;
      const least = Math.min(...amps);
      return [
        { intent: { id: "", battery: "G1", below: limit(1.01, Math.max(...amps)), when }, expects: "met" },
        // What a memory adds is found with it alone, so only the least is sure to be reached.
        ...(least > 1e-4
          ? [{ intent: { id: "", battery: "G1", below: limit(0.99, least), when }, expects: "not met" as const }]
          : []),
      ];
    });
}

/** On at rest with a switch closed: it never goes off; else it does, if given an hour. */
function offInTime({ circuit }: { readonly circuit: Circuit }, run: RunFacts): readonly Case[] {
  const rests = run.reachable.found.filter((f) => f.rest).map((f) => f.state);
  const s1 = circuit.inputs.findIndex((i) => i.id === "S1");
  return partsOf(circuit).flatMap((load): readonly Case[] => {
    const doer = doerOf(circuit, load);
    if (doer === undefined) return [];
    const on = rests.filter((s) => s.stands[s1] === 0 && doingIn(run, s, doer) !== "off");
    const expects = on.length === 0 ? "met" : on.every((s) => isAsked(circuit, s)) ? "could not check" : "not met";
    return [{ intent: { id: "", load, offWithin: "3600 s", after: { S1: "open" } }, expects }];
  });
}

const SEED = 20_261_126;

test.each([
  ["on only where it is on", onlyWhereOn],
  ["on only with a switch that it hangs on", onlyWithSwitch],
  ["on where it is on", onWhereOn],
  ["never with what it is never on with", together],
  ["below what the battery gives", below],
  ["off in time", offInTime],
])("60 looms thrown together: %s; and the contrary is not met", (_, casesOf) => {
  const counts: Record<Verdict, number> = { met: 0, "not met": 0, "could not check": 0 };
  fc.assert(
    fc.property(anyLoom, (loom) => {
      const plain = usualFacts(loom, true);
      const run = plain.runs[0] as RunFacts;
      // Where something buzzes the plain search goes no further.
      if (run.reachable.restless.length > 0 || !run.reachable.complete) return;
      const cases = casesOf(plain, run).filter((c) => (c.intent.onOnlyWhen?.length ?? 0) <= 200);
      for (const c of cases) counts[c.expects]++;
      const said = verdicts(
        loom,
        cases.map((c) => c.intent),
      );
      expect(cases.map((c, k) => [c.intent, said[k]])).toEqual(cases.map((c) => [c.intent, c.expects]));
    }),
    { numRuns: 60, seed: SEED },
  );
  expect(counts.met).toBeGreaterThan(20);
  expect(counts["not met"]).toBeGreaterThan(20);
});
