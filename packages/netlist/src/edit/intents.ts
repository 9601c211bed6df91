import type { Loom } from "../loom/schema.ts";

/** Wants a load on only while an input stands at one of these values. The intent is called after the load. */
export function wantOnlyWhen(loom: Loom, load: string, input: string, values: readonly string[]): Loom {
  const taken = new Set(loom.intents.map((i) => i.id));
  let id = load;
  for (let n = 2; taken.has(id); n++) id = `${load} ${n}`;
  const [only, ...more] = values;
  const value = more.length === 0 && only !== undefined ? only : [...values];
  return { ...loom, intents: [...loom.intents, { id, load, onOnlyWhen: [{ [input]: value }] }] };
}
