import type { Behaviour, BehaviourRow, IntentSeen } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { amps, listed } from "../../panels/words.ts";

export type AnyCell = BehaviourRow["cells"][number];

/** An intent beside its row. */
export interface Wish {
  readonly id: string;
  readonly says: string;
  readonly verdict: IntentSeen["verdict"];
  readonly isPossible: boolean;
  readonly missing: readonly string[];
}

/** What is wanted of each row, and what is wanted of none of them. */
export function wishesOf(loom: Loom, { rows, intents }: Behaviour): ReadonlyMap<string | undefined, readonly Wish[]> {
  const wishes = new Map<string | undefined, Wish[]>();
  for (const { id, says, verdict, strength, missing = [] } of intents) {
    const about = loom.intents.find((i) => i.id === id);
    const row = rows.find((r) => r.id === (about?.load ?? about?.battery));
    // The row has its name in front already.
    const start = row === undefined ? undefined : `${row.kind === "battery" ? `Battery\u00a0${row.id}` : row.label}: `;
    const plain = says.map((s) => (start !== undefined && s.startsWith(start) ? s.slice(start.length) : s));
    const wish = { id, says: plain.join("; ") || id, verdict, isPossible: strength === "possible", missing };
    wishes.set(row?.id, [...(wishes.get(row?.id) ?? []), wish]);
  }
  return wishes;
}

/** Designation and name of a row apart: "M1", "Lift pump". */
export function headOf({ id, label }: BehaviourRow): { readonly id: string; readonly says: string } {
  return { id, says: label.endsWith(` ${id}`) ? label.slice(0, -id.length - 1) : label === id ? "" : label };
}

/** What a row does in one cell, as a sentence says it: "is on". */
export function doesWords(row: BehaviourRow, cell: AnyCell): string {
  if (typeof cell === "number") return cell === 0 ? "gives nothing" : `gives ${amps(cell)}`;
  if (cell === "held") return "is in only because of what came before";
  if (row.kind === "module" && cell === "off") return "has no supply";
  return cell === "partly" ? "is partly on" : `is ${cell}`;
}

/** What a cell shows, in a word; of a battery the amps. */
export const cellWord = (cell: AnyCell): string =>
  typeof cell === "number" ? amps(cell) : cell === "held" ? "held in" : cell;

/** The picked cell in sentences: the situation, then the row in it, then what is wanted. */
export function cellSentence(
  { rows, situations }: Behaviour,
  wishes: ReadonlyMap<string | undefined, readonly Wish[]>,
  { row: id, at }: { readonly row: string; readonly at: number },
): { readonly head: string; readonly says: string; readonly against: readonly Wish[] } | undefined {
  const row = rows.find((r) => r.id === id);
  const situation = situations[at];
  const cell = row?.cells[at];
  if (row === undefined || situation === undefined || cell === undefined) return undefined;
  const broken = new Set(situation.against.map((a) => a.row));
  const against = (wishes.get(id) ?? []).filter((w) =>
    situation.against.some((a) => a.row === id && a.intent === w.id),
  );
  const count =
    broken.size === 0
      ? ""
      : ` ${NUMBERS[broken.size] ?? broken.size} ${broken.size === 1 ? "thing is not as you want it" : "things are not as you want them"}.`;
  const wanted = against.length === 0 ? "" : ` You want: ${listed(against.map((w) => w.says))}.`;
  return {
    head: `${situation.title}.${count}`,
    says: `${row.kind === "battery" ? `The battery ${row.id}` : row.label} ${doesWords(row, cell)}.${wanted}`,
    against,
  };
}

const NUMBERS = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine"];
