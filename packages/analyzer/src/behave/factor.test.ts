import { readFileSync } from "node:fs";
import { type Loom, parse, sketch, write } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compile } from "../circuit/compile.ts";
import { anyLoom } from "../testing/random-loom.ts";
import { type ExploreOptions, explore, type Reachable } from "./explore.ts";
import { exploreByScopes } from "./factor.ts";
import { machineOf } from "./machine.ts";
import { type Run, runsOf } from "./runs.ts";
import type { Scope } from "./scope.ts";
import type { State } from "./state.ts";

// The plain search is the reference: seen through each scope, it must find the same states, one for one.

function seen(scope: Scope, s: State): string {
  const inputs = [...s.stands].filter((_, i) => scope.inputs[i] === 1);
  const latches = [...s.latches].filter((_, l) => scope.latches[l] === 1);
  const ends = [...s.ends].filter((_, l) => scope.latches[l] === 1);
  return [inputs, latches, ends].map((list) => list.join()).join(" ");
}

const states = (scope: Scope, found: Reachable["found"]): readonly string[] =>
  [...new Set(found.map((f) => seen(scope, f.state)))].sort();

interface CompareOptions {
  readonly runs?: (runs: readonly Run[]) => readonly Run[];
  readonly leaveOut?: ExploreOptions["leaveOut"];
}

const MOST_MOMENTS = 100_000;

/** How many searches were compared. */
function compare(loom: Loom, { runs = (all) => all, leaveOut }: CompareOptions = {}): number {
  const circuit = compile(loom);
  let searches = 0;
  for (const run of runs(runsOf(circuit))) {
    // Relays that rattle at each other take minutes, and are no use to anybody: such looms are left out.
    const plain = explore(machineOf(circuit, run.patch), { budgetMoments: MOST_MOMENTS });
    // Where something buzzes the plain search goes no further; the scopes beside it do.
    if (plain.restless.length > 0 || !plain.complete) continue;
    const factored = exploreByScopes(machineOf(circuit, run.patch), { leaveOut });
    expect(factored.complete).toBe(true);
    expect(factored.searches.flatMap((s) => s.loads).sort((a, b) => a - b)).toEqual(circuit.loads.map((_, i) => i));
    for (const { machine, first, end } of factored.searches) {
      const scope = machine.view?.scope;
      if (scope === undefined) throw new Error("a search without a scope");
      expect(states(scope, factored.found.slice(first, end)), run.id).toEqual(states(scope, plain.found));
      searches++;
    }
  }
  return searches;
}

const example = (name: string): Loom => {
  const read = parse(readFileSync(new URL(`../../../../examples/${name}.loom.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(`${name} is no loom`);
  return read.loom;
};

/** A loom without some module pins and switches, and without the wires on them. */
function cutDown(
  loom: Loom,
  { pins, switches }: { readonly pins: readonly string[]; readonly switches: readonly string[] },
): Loom {
  const isGone = (end: string) => pins.includes(end) || switches.includes(end.slice(0, end.indexOf(".")));
  const of = new Map(loom.parts.map((p) => [p.id, p.is === "module" ? String((p as Record<string, unknown>).of) : ""]));
  const cut = {
    ...loom,
    definitions: loom.definitions.map((d) => ({
      ...d,
      pins: d.pins.filter(
        (pin) => !pins.some((p) => of.get(p.slice(0, p.indexOf("."))) === d.id && p.endsWith(`.${pin.pin}`)),
      ),
    })),
    parts: loom.parts.filter((p) => !switches.includes(p.id)),
    world: loom.world.filter((w) => !("moves" in w && w.moves?.some((id) => switches.includes(id)))),
    wires: loom.wires.filter((w) => !isGone(w.from) && !isGone(w.to)),
  };
  const read = parse(write(cut));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.loom;
}

const SEED = 20_261_125;

describe("search by scopes against the plain search", () => {
  test.each(["fuel-feed", "fuel-feed-cured"])("%s, in every run", (name) => {
    expect(compare(example(name))).toBeGreaterThan(0);
  });

  test("the tractor cut to five unknown outputs, in every run", () => {
    const loom = cutDown(example("marigold-first"), {
      pins: ["A1.11", "A1.13", "A1.16", "A1.19", "A1.20", "A2.10", "A2.11"],
      switches: ["S2", "S3", "S5", "S6", "S7"],
    });
    const unknown = compile(loom).inputs.filter((i) => i.kind === "request");
    expect(unknown.map((i) => i.id)).toEqual(["A1.4", "A1.10", "A1.12", "A1.14", "A1.17"]);
    expect(compare(loom)).toBeGreaterThan(20);
  });

  test("switches with nothing in common are never multiplied", () => {
    const ids = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
    const loom = sketch({
      parts: {
        "G1 battery": {},
        ...Object.fromEntries(
          ids.flatMap((i) => [[`S${i} switch`, {}] as const, [`E${i} lamp indicator`, {}] as const]),
        ),
      },
      wires: ids.flatMap((i) => [`G1.+ S${i}.1`, `S${i}.2 E${i}.a`, `E${i}.b G1.-`]),
    });
    const circuit = compile(loom);
    const [usual] = runsOf(circuit);
    if (usual === undefined) throw new Error("no run");
    expect(exploreByScopes(machineOf(circuit, usual.patch)).found.length).toBe(24);
  });

  test("100 looms thrown together, at the usual and the weak corner", () => {
    let compared = 0;
    const corners = ["usual", "weak"];
    fc.assert(
      fc.property(anyLoom, (loom) => {
        compared += compare(loom, { runs: (all) => all.filter((r) => corners.includes(r.id)) });
      }),
      { numRuns: 100, seed: SEED },
    );
    expect(compared).toBeGreaterThan(200);
  });

  test("a lost edge is noticed: a key that never goes to run, a switch that never moves", () => {
    for (const id of ["S1", "S4"]) {
      const input = compile(example("fuel-feed")).inputs.findIndex((i) => i.id === id);
      const leaveOut: ExploreOptions["leaveOut"] = (_, move) =>
        move.kind === "inputs" && move.set.some((m) => m.input === input && m.stand === 1);
      expect(() => compare(example("fuel-feed"), { runs: (all) => all.slice(0, 1), leaveOut }), id).toThrow();
    }
  });
});
