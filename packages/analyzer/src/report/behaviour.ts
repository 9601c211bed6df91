import type { Loom } from "@loomproof/netlist";
import { extraRelays } from "../behave/cold.ts";
import { completed, standsWithin } from "../behave/complete.ts";
import type { Found } from "../behave/explore.ts";
import { type On, onState } from "../behave/loads.ts";
import { pointOf } from "../behave/machine.ts";
import { runsOf } from "../behave/runs.ts";
import type { State } from "../behave/state.ts";
import type { Circuit } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { factsOf, type RunFacts } from "../facts/facts.ts";
import { named } from "../facts/words.ts";

/** One situation: where the inputs stand, and whether something is still in from before. */
export interface Situation {
  readonly title: string;
  readonly inputs: Readonly<Record<string, string>>;
  /** Relays that are in only because of what came before. */
  readonly heldIn: readonly string[];
}

export interface BehaviourRow {
  readonly id: string;
  readonly label: string;
  readonly kind: "load" | "relay" | "module";
  /** One cell a situation. For a relay on means in. */
  readonly cells: readonly On[];
}

/** What is on when: loads, relays and modules by situation, in the usual run. */
export interface Behaviour {
  readonly situations: readonly Situation[];
  readonly rows: readonly BehaviourRow[];
  /** Situations beyond the limit. */
  readonly more: number;
}

const MOST_COLUMNS = 16;

/**
 * The behaviour table. Columns: the key's positions with all else as usual; one more for each other input that alone
 * changes a row; one more for each differing rest state of the same inputs. Equal columns fold.
 */
export function behaviour(loom: Loom, most = MOST_COLUMNS): Behaviour {
  const circuit = compile(loom);
  const usual = runsOf(circuit).slice(0, 1);
  const [run] = factsOf(circuit, { runs: usual }).runs;
  if (run === undefined) return { situations: [], rows: [], more: 0 };
  const ids = rowsOf(circuit);
  const columns: { readonly situation: Situation; readonly cells: readonly On[] }[] = [];
  const seen = new Set<string>();
  const add = (states: readonly State[], isKey: boolean) => {
    states.forEach((state, k) => {
      const cells = cellsOf(run, state, ids);
      const key = cells.join();
      if (seen.has(key) && !(isKey && k === 0)) return;
      seen.add(key);
      columns.push({ situation: situationOf(run, state), cells });
    });
  };
  for (const stands of keyPositions(circuit)) {
    add(restAt(run, stands, undefined), true);
    circuit.inputs.forEach((input, i) => {
      if (input.isKey) return;
      for (let stand = 0; stand < input.positions; stand++)
        if (stand !== stands[i]) add(restAt(run, stands.with(i, stand), i), false);
    });
  }
  const shown = columns.slice(0, most);
  return {
    situations: shown.map((c) => c.situation),
    rows: ids.map((r, k) => ({ ...r, cells: shown.map((c) => c.cells[k] ?? "off") })),
    more: columns.length - shown.length,
  };
}

function keyPositions(circuit: Circuit): readonly Uint8Array[] {
  const stands = Uint8Array.from(circuit.inputs, (i) => i.usual);
  const key = circuit.inputs.findIndex((i) => i.isKey);
  if (key < 0) return [stands];
  return Array.from({ length: circuit.inputs[key]?.positions ?? 1 }, (_, p) => stands.with(key, p));
}

/**
 * Rest states of the whole loom with the inputs standing so, first those that remember nothing. One for each memory of
 * each search that `moved` matters to; of all searches if nothing moved.
 */
function restAt(run: RunFacts, stands: Uint8Array, moved: number | undefined): readonly State[] {
  const { machine, reachable } = run;
  const { circuit } = machine;
  const states = new Map<string, State>();
  for (const { machine: own, first, end } of reachable.searches) {
    const scope = own.view?.scope;
    if (moved !== undefined && scope?.inputs[moved] === 0) continue;
    const key = standsWithin(circuit, scope, stands).join();
    for (let at = first; at < end; at++) {
      const { rest, state } = reachable.found[at] as Found;
      if (!rest || state.stands.join() !== key) continue;
      const whole = completed(machine, scope, state, stands);
      if (!states.has(whole.pointKey)) states.set(whole.pointKey, whole);
    }
  }
  return [...states.values()]
    .map((state) => ({ state, extra: extraRelays(machine, state).length }))
    .sort((a, b) => a.extra - b.extra)
    .map(({ state }) => state);
}

type RowId = Pick<BehaviourRow, "id" | "label" | "kind">;

function rowsOf(circuit: Circuit): readonly RowId[] {
  const rows = new Map<string, RowId>();
  for (const load of circuit.loads) {
    const kind = load.judge.kind === "latch" ? "relay" : load.family === "module" ? "module" : "load";
    if (!rows.has(load.part)) rows.set(load.part, { id: load.part, label: named(load.part, load.label), kind });
  }
  const rank = { load: 0, relay: 1, module: 2 } as const;
  return [...rows.values()].sort((a, b) => rank[a.kind] - rank[b.kind]);
}

function cellsOf({ machine }: RunFacts, state: State, rows: readonly RowId[]): readonly On[] {
  const point = pointOf(machine, state);
  const order: readonly On[] = ["off", "partly", "on"];
  return rows.map(({ id }) =>
    machine.circuit.loads
      .filter((l) => l.part === id)
      .map((l) => onState(machine, state, point, l))
      .reduce<On>((best, on) => (order.indexOf(on) > order.indexOf(best) ? on : best), "off"),
  );
}

function situationOf(run: RunFacts, state: State): Situation {
  const { circuit } = run.machine;
  const shown = circuit.inputs.flatMap((input, i) => {
    const stand = state.stands[i] ?? 0;
    return input.isKey || stand !== input.usual
      ? [`${input.kind === "switch" && input.label !== "" ? input.label : input.id} ${input.stands[stand]}`]
      : [];
  });
  const heldIn = extraRelays(run.machine, state).map((r) => circuit.latches[r]?.id ?? "");
  return {
    title: [...shown, ...(heldIn.length > 0 ? [`${heldIn.join(", ")} still in`] : [])].join(", ") || "as usual",
    inputs: Object.fromEntries(circuit.inputs.map((input, i) => [input.id, input.stands[state.stands[i] ?? 0] ?? ""])),
    heldIn,
  };
}
