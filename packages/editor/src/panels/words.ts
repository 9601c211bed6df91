import type { Finding } from "@loomproof/analyzer";
import type { ResolvedLoom } from "@loomproof/netlist";

/** Two decimals below 10 V, one above; the number stays with its unit. */
export const volts = (v: number): string => `${v.toFixed(Math.abs(v) < 9.995 ? 2 : 1)}\u00a0V`;

/** With a capital first letter, as a heading. */
export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Label and designation of a part, such as "Lift pump M1". */
export function nameOf(loom: ResolvedLoom, id: string): string {
  const label = loom.parts.find((p) => p.id === id)?.label ?? "";
  return label === "" ? id : `${label} ${id}`;
}

/** "M1", "M1 and E1", "M1, E1 and 3 more". */
export function listed(ids: readonly string[], most = 3): string {
  if (ids.length > most) return `${ids.slice(0, most - 1).join(", ")} and ${ids.length - most + 1} more`;
  const last = ids.at(-1) ?? "";
  return ids.length < 2 ? last : `${ids.slice(0, -1).join(", ")} and ${last}`;
}

/** What a person does: "Key S1 to run". */
export function moveWords(loom: ResolvedLoom, set: Readonly<Record<string, string>>): string {
  const all = Object.entries(set);
  if (all.length === 0) return "Battery connected";
  return capital(all.map(([input, value]) => `${nameOf(loom, input)}${value === "" ? "" : ` to ${value}`}`).join(", "));
}

const CORNERS = [
  ["strong", "cold, with a full battery"],
  ["weak", "hot, with a tired one"],
] as const;

/** How sure a finding is, in a sentence; undefined for a plain fact of the file. */
export function certainty({ strength, runs, unknown }: Finding): string | undefined {
  if (runs.length === 0) return undefined;
  if (unknown !== undefined) return `Possible: only ${unknown}. Measure that pin.`;
  if (strength === "certain") return "Certain: every part within its data sheet does this.";
  const corners = CORNERS.filter(([id]) => runs.some((r) => r.startsWith(id))).map(([, words]) => words);
  const isUsual = runs.some((r) => r.startsWith("usual"));
  return isUsual || corners.length === 0
    ? "Possible: it hangs on where within its data sheet a relay is."
    : `Possible: ${corners.join(", or ")}.`;
}

/** Three figures, mA below 1 A; the number stays with its unit. */
export function amps(a: number): string {
  const [value, unit] = Math.abs(a) < 0.9995 ? [a * 1000, "mA"] : [a, "A"];
  return `${String(Number(value.toPrecision(3))).replace("-", "\u2212")}\u00a0${unit}`;
}
