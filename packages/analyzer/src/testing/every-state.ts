import type { Loom } from "@loomproof/netlist";
import { explore, type Found, type Reachable, type Search } from "../behave/explore.ts";
import { exploreByScopes } from "../behave/factor.ts";
import { type Machine, machineOf } from "../behave/machine.ts";
import { runsOf } from "../behave/runs.ts";
import type { Slices } from "../behave/slices.ts";
import type { Circuit } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { factsOf } from "../facts/facts.ts";

// Every state that a search finds, for tests that hold it against something else.

/** A state with nothing on its way: where inputs stand, and which latches are on. */
export interface QuietState {
  readonly stands: Readonly<Record<string, string>>;
  readonly on: readonly string[];
}

/** The plain search as a walk for `factsOf`. */
export function* plainWalk(machine: Machine): Slices<Reachable> {
  yield 0;
  return explore(machine);
}

/** What one search found in the usual run. States tell only of what the search moves. */
export interface SearchSeen {
  readonly inputs: readonly string[];
  readonly latches: readonly string[];
  readonly quiet: readonly QuietState[];
  /** Moves of an input after which nothing comes to rest. */
  readonly restless: readonly { readonly from: QuietState; readonly input: string }[];
  readonly complete: boolean;
}

/** The plain search, which moves the whole loom at once. */
export function plainSearch(loom: Loom): SearchSeen {
  const circuit = compile(loom);
  const reachable = explore(machineOf(circuit, usualPatch(circuit)));
  return seenBy(circuit, reachable, reachable.searches[0] as Search);
}

/** The search by scopes: one answer a scope. */
export function searchByScopes(loom: Loom): readonly SearchSeen[] {
  const circuit = compile(loom);
  const reachable = exploreByScopes(machineOf(circuit, usualPatch(circuit)));
  return reachable.searches.map((s) => seenBy(circuit, reachable, s));
}

/** What all runs of a loom found, as rules would ask for it, without the rules. */
export interface Explored {
  readonly runs: number;
  readonly states: number;
  readonly solves: number;
  /** Everything was looked at, however much all else draws. */
  readonly complete: boolean;
  /** Latches, over all runs, of which only the largest sag of the supply was looked at. */
  readonly asUsual: number;
}

/** Explores a loom in every run, by scopes. */
export function exploreLoom(loom: Loom): Explored {
  const runs = factsOf(compile(loom)).runs.map((r) => ({ ...r.reachable, solves: r.machine.solves }));
  const sum = (of: (r: (typeof runs)[number]) => number) => runs.reduce((n, r) => n + of(r), 0);
  return {
    runs: runs.length,
    states: sum((r) => r.found.length),
    solves: sum((r) => r.solves),
    complete: runs.every((r) => r.complete),
    asUsual: sum((r) => r.asUsual.length),
  };
}

function usualPatch(circuit: Circuit) {
  const [usual] = runsOf(circuit);
  if (usual === undefined) throw new Error("a loom without a run");
  return usual.patch;
}

function seenBy(circuit: Circuit, { found, restless, complete }: Reachable, search: Search): SearchSeen {
  const scope = search.machine.view?.scope;
  const inputs = [...circuit.inputs.keys()].filter((i) => scope?.inputs[i] !== 0);
  const latches = [...circuit.latches.keys()].filter((l) => scope?.latches[l] !== 0);
  const seen = ({ state }: Found): QuietState => ({
    stands: Object.fromEntries(
      inputs.flatMap((i) => {
        const input = circuit.inputs[i];
        return input === undefined ? [] : [[input.id, input.stands[state.stands[i] ?? 0] ?? ""]];
      }),
    ),
    on: latches.flatMap((l) => (state.latches[l] === 1 ? [circuit.latches[l]?.id ?? ""] : [])),
  });
  return {
    inputs: inputs.map((i) => circuit.inputs[i]?.id ?? ""),
    latches: latches.map((l) => circuit.latches[l]?.id ?? ""),
    quiet: found.slice(search.first, search.end).map(seen),
    restless: restless.flatMap(({ from, move }) => {
      const at = found[from];
      if (from < search.first || from >= search.end || at === undefined || move.kind !== "inputs") return [];
      return move.set.map(({ input }) => ({ from: seen(at), input: circuit.inputs[input]?.id ?? "" }));
    }),
    complete,
  };
}
