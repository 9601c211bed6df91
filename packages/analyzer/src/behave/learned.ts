import { MAYBE, NO, type Scope, type Tri, YES } from "./scope.ts";
import type { State } from "./state.ts";

/**
 * What a finished search says of a latch: the states, between changes that take no time, that its scope passes through.
 * Another scope that leaves the latch out still shares some inputs and latches with it; where every passed state that
 * agrees with those has the latch the same way, it is known.
 */
export interface Learned {
  readonly scope: Scope;
  readonly passed: readonly State[];
}

/** What can be told of latches outside from a state of a scope. */
export interface Outside {
  /** Whether anything can, in any state. */
  readonly knows: (latch: number) => boolean;
  readonly is: (latch: number, s: State) => Tri;
}

interface Table {
  readonly inputs: readonly number[];
  readonly latches: readonly number[];
  /** By the shared part of a state. */
  readonly values: Map<string, Tri>;
}

/** @param learned by latch; those found later are not known to this scope */
export function outsideOf(scope: Scope, learned: ReadonlyMap<number, Learned>): Outside {
  const tables = new Map<number, Table | undefined>();
  const tableFor = (latch: number): Table | undefined => {
    let table = tables.get(latch);
    if (table === undefined && !tables.has(latch)) {
      const of = learned.get(latch);
      table = of && tableOf(scope, of, latch);
      tables.set(latch, table);
    }
    return table;
  };
  return {
    knows: (latch) => tableFor(latch) !== undefined,
    is: (latch, s) => {
      const table = tableFor(latch);
      return table?.values.get(sharedKey(table, s)) ?? MAYBE;
    },
  };
}

function inBoth(x: Uint8Array, y: Uint8Array): readonly number[] {
  const both: number[] = [];
  for (let i = 0; i < x.length; i++) if (x[i] === 1 && y[i] === 1) both.push(i);
  return both;
}

function tableOf(scope: Scope, of: Learned, latch: number): Table {
  const inputs = inBoth(scope.inputs, of.scope.inputs);
  const latches = inBoth(scope.latches, of.scope.latches);
  const values = new Map<string, Tri>();
  const table = { inputs, latches, values };
  for (const s of of.passed) {
    const key = sharedKey(table, s);
    const is = s.latches[latch] === 1 ? YES : NO;
    const before = values.get(key);
    values.set(key, before === undefined || before === is ? is : MAYBE);
  }
  return table;
}

function sharedKey({ inputs, latches }: Pick<Table, "inputs" | "latches">, s: State): string {
  let key = "";
  for (const i of inputs) key += String.fromCharCode(s.stands[i] as number);
  let word = 1;
  for (const l of latches) {
    word = (word << 1) | (s.latches[l] as number);
    if (word > 0x3fff) {
      key += String.fromCharCode(word);
      word = 1;
    }
  }
  return key + String.fromCharCode(word);
}
