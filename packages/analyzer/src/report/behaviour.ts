import type { Loom } from "@loomproof/netlist";
import { extraRelays } from "../behave/cold.ts";
import type { On } from "../behave/loads.ts";
import { runsOf } from "../behave/runs.ts";
import { type State, withStand } from "../behave/state.ts";
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
  const [run] = factsOf(circuit, [], usual).runs;
  if (run === undefined) return { situations: [], rows: [], more: 0 };
  const ids = rowsOf(circuit);
  const columns: { readonly situation: Situation; readonly cells: readonly On[] }[] = [];
  const seen = new Set<string>();
  const add = (states: readonly number[], isKey: boolean) => {
    states.forEach((at, k) => {
      const cells = cellsAt(run, at, ids);
      const key = cells.join();
      if (seen.has(key) && !(isKey && k === 0)) return;
      seen.add(key);
      columns.push({ situation: situationAt(run, at), cells });
    });
  };
  const restBy = restByInputs(run);
  for (const base of keyPositions(circuit)) {
    add(restBy.get(standKey(base)) ?? [], true);
    circuit.inputs.forEach((input, i) => {
      if (input.isKey) return;
      for (let stand = 0; stand < input.positions; stand++)
        if (stand !== base.stands[i]) add(restBy.get(standKey(withStand(base, i, stand))) ?? [], false);
    });
  }
  const shown = columns.slice(0, most);
  return {
    situations: shown.map((c) => c.situation),
    rows: ids.map((r, k) => ({ ...r, cells: shown.map((c) => c.cells[k] ?? "off") })),
    more: columns.length - shown.length,
  };
}

const standKey = (s: State): string => s.stands.join();

function keyPositions(circuit: Circuit): readonly State[] {
  const stands = Uint8Array.from(circuit.inputs, (i) => i.usual);
  const none = { latches: new Uint8Array(0), ends: new Uint8Array(0), pointKey: "", key: "" };
  const key = circuit.inputs.findIndex((i) => i.isKey);
  if (key < 0) return [{ stands, ...none }];
  return Array.from({ length: circuit.inputs[key]?.positions ?? 1 }, (_, p) => ({
    stands: stands.with(key, p),
    ...none,
  }));
}

/** Rest states by where the inputs stand, first those that remember nothing. One for each differing set of rows. */
function restByInputs(run: RunFacts): ReadonlyMap<string, readonly number[]> {
  const by = new Map<string, number[]>();
  const seen = new Set<string>();
  const rest = run.reachable.found.flatMap((f, at) =>
    f.rest ? [{ at, state: f.state, extra: extraRelays(run.machine, f.state).length }] : [],
  );
  for (const { at, state } of rest.sort((a, b) => a.extra - b.extra || a.at - b.at)) {
    if (seen.has(state.pointKey)) continue;
    seen.add(state.pointKey);
    const list = by.get(standKey(state)) ?? [];
    list.push(at);
    by.set(standKey(state), list);
  }
  return by;
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

function cellsAt(run: RunFacts, at: number, rows: readonly RowId[]): readonly On[] {
  const facts = run.loadsAt(at);
  const order: readonly On[] = ["off", "partly", "on"];
  return rows.map(({ id }) =>
    facts
      .filter((f) => f.load.part === id)
      .reduce<On>((best, f) => (order.indexOf(f.on) > order.indexOf(best) ? f.on : best), "off"),
  );
}

function situationAt(run: RunFacts, at: number): Situation {
  const { circuit } = run.machine;
  const state = run.reachable.found[at]?.state as State;
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
