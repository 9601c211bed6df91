import { type On, onState } from "../behave/loads.ts";
import { pointOf } from "../behave/machine.ts";
import { hasLatch } from "../behave/scope.ts";
import type { State } from "../behave/state.ts";
import type { Circuit } from "../circuit/circuit.ts";
import type { RunFacts } from "./facts.ts";
import { foundAt } from "./found.ts";

/** By what a part is on: its loads; a relay has only its armature, an engine only its running. */
export type Doer =
  | { readonly kind: "loads"; readonly loads: readonly number[] }
  | { readonly kind: "latch"; readonly latch: number };

/** What a part does is that of its loads; its coils count only where it has nothing else. */
export function doerOf(circuit: Circuit, part: string): Doer | undefined {
  const own = circuit.loads.flatMap((l, i) => (l.part === part ? [i] : []));
  const work = own.filter((i) => circuit.loads[i]?.judge.kind !== "latch");
  if (work.length > 0) return { kind: "loads", loads: work };
  for (const i of own) {
    const judge = circuit.loads[i]?.judge;
    if (judge?.kind === "latch") return { kind: "latch", latch: judge.latch };
  }
  const works = circuit.works.find((w) => w.part === part);
  return works === undefined ? undefined : { kind: "latch", latch: works.latch };
}

const ORDER: readonly On[] = ["off", "partly", "on"];
const most = (list: Iterable<On>): On => {
  let best: On = "off";
  for (const on of list) if (ORDER.indexOf(on) > ORDER.indexOf(best)) best = on;
  return best;
};

/** What a part does in a state of the whole loom. Electronics that have supply and sleep are "partly" on. */
export function doingIn({ machine }: RunFacts, state: State, doer: Doer): On {
  if (doer.kind === "latch") return state.latches[doer.latch] === 1 ? "on" : "off";
  const point = pointOf(machine, state);
  return most(
    doer.loads.map((l) => {
      const load = machine.circuit.loads[l];
      return load === undefined ? "off" : onState(machine, state, point, load);
    }),
  );
}

/** One search that tells what a part does, state by state. */
export interface Telling {
  readonly first: number;
  readonly end: number;
  readonly doing: (at: number) => On;
}

/** The searches that tell of a part: of loads each its own, of an armature any that moves it. */
export function tellingOf(run: RunFacts, doer: Doer): readonly Telling[] {
  const { searches } = run.reachable;
  if (doer.kind === "latch") {
    const { latch } = doer;
    const search = searches.find(({ machine }) => hasLatch(machine.view?.scope, latch));
    if (search === undefined) return [];
    const doing = (at: number): On => (foundAt(run, at).state.latches[latch] === 1 ? "on" : "off");
    return [{ first: search.first, end: search.end, doing }];
  }
  const { loads } = run.machine.circuit;
  const own = new Set(doer.loads.map((l) => loads[l]));
  return searches.flatMap(({ first, end, loads: told }) =>
    told.some((l) => own.has(loads[l]))
      ? [{ first, end, doing: (at: number) => most(run.loadsAt(at).flatMap((f) => (own.has(f.load) ? [f.on] : []))) }]
      : [],
  );
}
