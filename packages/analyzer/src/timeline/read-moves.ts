import type { Circuit, Input } from "../circuit/circuit.ts";
import type { ScriptMove } from "./hand.ts";

/** Moves as a person types them, or why they are none. */
export type MovesRead =
  | { readonly ok: true; readonly moves: readonly ScriptMove[] }
  | { readonly ok: false; readonly found: string; readonly expected: string };

const MOST_MOVES = 200;
const MOST_SECONDS = 3600;
const SHAPE =
  'moves such as "S1=run, 200ms S1=off": a time (200ms, 0.2s, +5ms or rest), then an input and its position';

const refused = (found: string, expected: string): MovesRead => ({ ok: false, found, expected });

/**
 * Reads `"S1=run, 200ms S1=off S2=closed, rest S1=run"`: moves between commas, each with an optional time from the start
 * of the script, or with `+` from the move before. `rest` waits until nothing moves any more; without a time the first
 * move is at 0 ms and every other one at rest. `key` is the key switch where there is only one.
 */
export function readMoves(circuit: Circuit, text: string): MovesRead {
  const moves: ScriptMove[] = [];
  let last = 0;
  for (const [k, piece] of text.split(",").entries()) {
    const words = piece
      .trim()
      .replace(/^(\+?[\d.]+) +(ms|s)\b/, "$1$2")
      .split(/\s+/);
    const [first = ""] = words;
    const isTimed = !first.includes("=");
    const at = isTimed ? timeIn(first) : k === 0 ? 0 : "rest";
    const sets = isTimed ? words.slice(1) : words;
    if (at === undefined || sets.length === 0) return refused(`"${piece.trim()}"`, SHAPE);
    const seconds = typeof at === "object" ? at.later : at;
    if (typeof seconds === "number" && seconds > MOST_SECONDS) return refused(`"${first}"`, "times of at most an hour");
    if (typeof at === "number") {
      if (at < last) return refused(`"${first}" after a later time`, "times that do not go back");
      last = at;
    }
    for (const [n, set] of sets.entries()) {
      const read = readSet(circuit, set);
      if (!("input" in read)) return read;
      // What is set in one breath is set at one moment.
      moves.push({ at: n > 0 ? "at once" : at, ...read });
    }
    if (moves.length > MOST_MOVES) return refused(`${moves.length} moves`, `at most ${MOST_MOVES} moves`);
  }
  return { ok: true, moves };
}

function timeIn(text: string): ScriptMove["at"] | undefined {
  if (text === "rest") return "rest";
  const [, sign, digits, unit] = /^(\+?)(\d{1,9}(?:\.\d{1,6})?)(ms|s)$/.exec(text) ?? [];
  if (digits === undefined) return undefined;
  const seconds = Number(digits) / (unit === "ms" ? 1000 : 1);
  return sign === "+" ? { later: seconds } : seconds;
}

function readSet(circuit: Circuit, text: string): MovesRead | { readonly input: number; readonly stand: number } {
  const at = text.lastIndexOf("=");
  const [name, value] = [text.slice(0, Math.max(at, 0)), text.slice(at + 1)];
  if (at <= 0 || value === "") return refused(`"${text}"`, SHAPE);
  const input = inputNamed(circuit, name);
  if (input === undefined)
    return refused(`"${name}"`, `an input of this loom: ${circuit.inputs.map(inputText).join("; ") || "it has none"}`);
  const about = circuit.inputs[input] as Input;
  const stand = about.stands.slice(0, about.positions).indexOf(value);
  return stand < 0 ? refused(`"${text}"`, `a position of ${inputText(about)}`) : { input, stand };
}

function inputNamed({ inputs }: Circuit, name: string): number | undefined {
  const same = inputs.findIndex((i) => i.id === name);
  if (same >= 0) return same;
  const keys = inputs.flatMap((i, k) => (i.isKey && i.kind === "switch" ? [k] : []));
  return name.toLowerCase() === "key" && keys.length === 1 ? keys[0] : undefined;
}

const inputText = (i: Input): string => `${i.id} (${i.stands.slice(0, i.positions).join(", ")})`;
