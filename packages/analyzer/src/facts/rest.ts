import { extraRelays } from "../behave/cold.ts";
import { completed, standsWithin } from "../behave/complete.ts";
import { hasInput } from "../behave/scope.ts";
import type { State } from "../behave/state.ts";
import type { RunFacts } from "./facts.ts";
import { foundAt } from "./found.ts";

/** The whole loom at rest, with the found state that it was made of and what is in only because of what came before. */
export interface Rest {
  readonly at: number;
  readonly state: State;
  /** Relays by latch. */
  readonly extra: readonly number[];
}

/**
 * Rest states of the whole loom with the inputs standing so, first those that remember nothing. One for each memory of
 * each search that input `moved` matters to; of all searches if nothing moved. Several memories at once are not put
 * together. Cost: one settling a rest state.
 */
export function restsAt(run: RunFacts, stands: Uint8Array, moved?: number): readonly Rest[] {
  const { machine, reachable } = run;
  const { circuit } = machine;
  const rests = new Map<string, Rest>();
  for (const { machine: own, first, end } of reachable.searches) {
    const scope = own.view?.scope;
    if (moved !== undefined && !hasInput(scope, moved)) continue;
    const key = standsWithin(circuit, scope, stands).join();
    for (let at = first; at < end; at++) {
      const { rest, state } = foundAt(run, at);
      if (!rest || state.stands.join() !== key) continue;
      const whole = completed(machine, scope, state, stands);
      const known = rests.get(whole.pointKey);
      // Of several searches the one that moves everything that does not stand as usual: its story is whole.
      if (known === undefined || (!isWhole(run, known, stands) && state.stands.join() === stands.join()))
        rests.set(whole.pointKey, { at, state: whole, extra: known?.extra ?? extraRelays(machine, whole) });
    }
  }
  return [...rests.values()].sort((a, b) => a.extra.length - b.extra.length);
}

const isWhole = (run: RunFacts, { at }: Rest, stands: Uint8Array): boolean =>
  foundAt(run, at).state.stands.join() === stands.join();
