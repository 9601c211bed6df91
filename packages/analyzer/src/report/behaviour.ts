import type { Loom } from "@loomproof/netlist";
import type { On } from "../behave/loads.ts";
import { pointOf } from "../behave/machine.ts";
import { hasInput } from "../behave/scope.ts";
import { atOnce } from "../behave/slices.ts";
import { stateOf } from "../behave/state.ts";
import type { Circuit } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { type Doer, doerOf, doingIn } from "../facts/doing.ts";
import { factsOf, type RunFacts } from "../facts/facts.ts";
import { given } from "../facts/intents/at-rest.ts";
import { breaksIn } from "../facts/intents/breaks.ts";
import { type Rest, restsAt } from "../facts/rest.ts";
import { named } from "../facts/words.ts";
import { floatingNodes } from "../solve/floating.ts";
import { digits } from "./digits.ts";
import { intentsSeen } from "./intents.ts";
import { inRules, inRuns, type Progress, RULES, runWords } from "./progress.ts";
import type { IntentSeen } from "./report.ts";
import { type Situation, situationOf } from "./situation.ts";

/** What a row says in one situation. Electronics that are off have no supply. */
export type Cell = "on" | "partly" | "off" | "in" | "held" | "out" | "awake" | "asleep";

interface RowOf<K extends string, C> {
  readonly id: string;
  readonly label: string;
  readonly kind: K;
  /** One cell a situation. */
  readonly cells: readonly C[];
}
export type BehaviourRow =
  | RowOf<"load", On>
  /** Held: in only because of what came before. */
  | RowOf<"relay", "in" | "held" | "out">
  | RowOf<"module", "awake" | "asleep" | "off">
  /** Amps that it gives; 0 while it is charged. */
  | RowOf<"battery", number>;

/** A situation in which an intent is not so. */
interface Against {
  readonly intent: string;
  readonly row: string;
}

export interface Column extends Situation {
  readonly against: readonly Against[];
}

/** What is on when: loads, relays, modules and batteries by situation, in the usual run; and what the owner wants. */
export interface Behaviour {
  readonly title: string;
  readonly situations: readonly Column[];
  readonly rows: readonly BehaviourRow[];
  /** Situations beyond the limit. */
  readonly more: number;
  readonly intents: readonly IntentSeen[];
}

const MOST_COLUMNS = 16;

/**
 * The behaviour table. Columns: the key's positions with all else as usual; one more for each other input that alone
 * changes a row; one more for each differing rest state of the same inputs. Equal columns fold, those of the key alone
 * excepted. Intents are held against every run.
 */
export function behaviour(loom: Loom, most = MOST_COLUMNS): Behaviour {
  return tableOf(unfolded(loom), most).table;
}

/** Volts of each terminal over the reference; null where nothing holds it. */
export type TerminalVolts = Readonly<Record<string, number | null>>;

/** The behaviour table with what a drawing of its situations needs. */
export interface BehaviourSeen {
  readonly table: Behaviour;
  /** One a situation. */
  readonly volts: readonly TerminalVolts[];
}

/** All of the same table, resting between runs and situations, so that a worker can tell how far it is. */
export function* behaviourInSlices(loom: Loom): Generator<Progress, BehaviourSeen, void> {
  const { table, shown } = tableOf(yield* looking(loom), Number.POSITIVE_INFINITY);
  return { table, volts: shown.map((c) => c.volts()) };
}

type Cells = readonly BehaviourRow["cells"][number][];
type RowHead = Omit<BehaviourRow, "cells">;

interface AnyColumn {
  readonly situation: Column;
  readonly cells: Cells;
  /** It differs from every column before it. */
  readonly isShown: boolean;
  readonly volts: () => TerminalVolts;
}

/** The table with every column that was looked at. */
export interface Unfolded {
  readonly title: string;
  readonly rows: readonly RowHead[];
  readonly columns: readonly AnyColumn[];
  readonly intents: readonly IntentSeen[];
}

/** Cost: one search of the usual run, one settling and one solve a column; with intents, a search of every run. */
export const unfolded = (loom: Loom): Unfolded => atOnce(looking(loom));

function* looking(loom: Loom): Generator<Progress, Unfolded, void> {
  const circuit = compile(loom);
  const facts = factsOf(circuit);
  const run = facts.runs[0] as RunFacts;
  const searches = circuit.intents.length === 0 ? [run] : facts.runs;
  for (const [i, one] of searches.entries()) {
    const says = `Every switch position, in every order: ${runWords(one)}`;
    for (const share of one.exploring()) yield { says, done: inRuns(i + share, searches.length) };
  }
  const rows = rowsOf(circuit);
  const columns: AnyColumn[] = [];
  const seen = new Set<string>();
  const titles = new Map<string, number>();
  const add = (rests: readonly Rest[], isKey: boolean) => {
    rests.forEach((rest, k) => {
      const cells = rows.map((row) => cellOf(run, row, rest));
      const key = cells.filter((c) => typeof c === "string").join();
      const isShown = !seen.has(key) || (isKey && k === 0);
      seen.add(key);
      const situation = situationOf(run, rest);
      const count = (titles.get(situation.title) ?? 0) + 1;
      if (isShown) titles.set(situation.title, count);
      // The same switches and relays, and electronics that remember something else.
      const title = count === 1 ? situation.title : `${situation.title}, outcome ${count}`;
      const about = { ...situation, title, against: breaksIn(run, rest.state) };
      columns.push({ situation: about, cells, isShown, volts: () => voltsOf(run, rest) });
    });
  };
  const keys = keyPositions(circuit);
  const count = keys.length * circuit.inputs.length;
  for (const [k, stands] of keys.entries()) {
    const base = restsAt(run, stands);
    add(base, true);
    for (const [i, input] of circuit.inputs.entries()) {
      yield { says: "What is on in which situation", done: inRules(k * circuit.inputs.length + i, count) };
      if (input.isKey) continue;
      const isIdle = input.heededBy === undefined && !isSearched(run, i);
      for (let stand = 0; stand < input.positions; stand++) {
        if (stand === stands[i]) continue;
        const put = stands.with(i, stand);
        // What nothing hangs on changes no row; it is a situation all the same.
        add(isIdle ? base.map((r) => withStands(r, put)) : restsAt(run, put, i), false);
      }
    }
  }
  yield { says: "What you want, against all that it can do", done: RULES };
  return {
    title: loom.title ?? "",
    rows: rows.map(({ id, label, kind }) => ({ id, label, kind })),
    columns,
    intents: intentsSeen(facts),
  };
}

const isSearched = ({ reachable }: RunFacts, input: number): boolean =>
  reachable.searches.some(({ machine }) => hasInput(machine.view?.scope, input));

const withStands = (rest: Rest, stands: Uint8Array): Rest => ({
  ...rest,
  state: stateOf(stands, rest.state.latches, rest.state.ends),
});

function tableOf({ title, rows, columns, intents }: Unfolded, most: number) {
  const folded = columns.filter((c) => c.isShown);
  const shown = folded.slice(0, most);
  const table: Behaviour = {
    title,
    rows: rows.map((row, k) => ({ ...row, cells: shown.map((c) => c.cells[k]) }) as BehaviourRow),
    intents,
    situations: shown.map((c) => c.situation),
    more: folded.length - shown.length,
  };
  return { table, shown };
}

function keyPositions(circuit: Circuit): readonly Uint8Array[] {
  const stands = Uint8Array.from(circuit.inputs, (i) => i.usual);
  const key = circuit.inputs.findIndex((i) => i.isKey);
  if (key < 0) return [stands];
  return Array.from({ length: circuit.inputs[key]?.positions ?? 1 }, (_, p) => stands.with(key, p));
}

interface Row extends RowHead {
  readonly doer: Doer | undefined;
}

const RANK = { load: 0, relay: 1, module: 2, battery: 3 } as const;

/** Loads, then relays, modules and batteries, each in the order of the loom. */
function rowsOf(circuit: Circuit): readonly Row[] {
  const rows = new Map<string, Row>();
  for (const { part, label, family } of circuit.loads) {
    const doer = doerOf(circuit, part);
    const kind = doer?.kind === "latch" ? "relay" : family === "module" ? "module" : "load";
    if (!rows.has(part)) rows.set(part, { id: part, label: named(part, label), kind, doer });
  }
  for (const e of circuit.elements)
    if (e.class === "source" && e.supply === "rest" && !rows.has(e.owner.id))
      rows.set(e.owner.id, {
        id: e.owner.id,
        label: `From the battery ${e.owner.id}`,
        kind: "battery",
        doer: undefined,
      });
  return [...rows.values()].sort((a, b) => RANK[a.kind] - RANK[b.kind]);
}

function cellOf(run: RunFacts, { id, kind, doer }: Row, { state, extra }: Rest): Cells[number] {
  if (doer === undefined) return digits(given(run, state, id));
  const on = doingIn(run, state, doer);
  if (kind === "module") return on === "on" ? "awake" : on === "partly" ? "asleep" : "off";
  if (doer.kind === "latch") return on === "off" ? "out" : extra.includes(doer.latch) ? "held" : "in";
  return on;
}

/** Inner nodes of parts have a "/" in their name and are nobody's terminal. */
function voltsOf({ machine }: RunFacts, { state }: Rest): TerminalVolts {
  const { closed, op } = pointOf(machine, state);
  const floats = floatingNodes(machine.network, closed, op);
  return Object.fromEntries(
    [...machine.circuit.nodeOf]
      .filter(([name]) => !name.includes("/"))
      .map(([name, n]) => [name, floats[n] === 1 ? null : digits(op.volts[n] ?? 0)]),
  );
}
