import type { Loom } from "@loomproof/netlist";
import { random } from "./random.ts";

/** Part ids of a loom under other names, and its lists in another order: nothing electrical changes. */
export interface Renamed {
  readonly loom: Loom;
  /** New name of a part or wire id, or of the part in "PART.terminal". */
  readonly nameOf: (old: string) => string;
}

function shuffled<T>(list: readonly T[], rnd: () => number): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = Math.floor(rnd() * (i + 1));
    [out[i], out[j]] = [out[j] as T, out[i] as T];
  }
  return out;
}

export function renamed(loom: Loom, seed: number): Renamed {
  const rnd = random(seed);
  const ids = [...loom.parts.map((p) => p.id), ...loom.wires.map((w) => w.id)];
  const fresh = new Map(shuffled(ids, rnd).map((id, i) => [id, `N${i + 1}`]));
  const nameOf = (old: string): string => {
    const dot = old.indexOf(".");
    const id = dot < 0 ? old : old.slice(0, dot);
    return (fresh.get(id) ?? id) + (dot < 0 ? "" : old.slice(dot));
  };
  const keys = <T>(record: Readonly<Record<string, T>>) =>
    Object.fromEntries(Object.entries(record).map(([k, v]) => [nameOf(k), v]));
  const conditions = (text: unknown): unknown => {
    // Conditions of modules may name switches under `input`.
    if (Array.isArray(text)) return text.map(conditions);
    if (typeof text !== "object" || text === null) return text;
    return Object.fromEntries(
      Object.entries(text).map(([k, v]) => [
        k,
        k === "input" && typeof v === "object" && v !== null ? keys(v as Record<string, unknown>) : conditions(v),
      ]),
    );
  };
  const stopped = (stops: Readonly<Record<string, readonly string[]>>) =>
    Object.fromEntries(Object.entries(stops).map(([at, ids]) => [at, ids.map(nameOf)]));
  const parts = loom.parts.map((p) => ({
    ...p,
    id: nameOf(p.id),
    ...(p.case === undefined ? {} : { case: nameOf(p.case) }),
    ...("turnedBy" in p ? { turnedBy: nameOf(String(p.turnedBy)) } : {}),
    ...("crankedBy" in p ? { crankedBy: nameOf(String(p.crankedBy)) } : {}),
    ...("needs" in p ? { needs: (p.needs as readonly string[]).map(nameOf) } : {}),
    ...("stops" in p ? { stops: stopped(p.stops as Readonly<Record<string, readonly string[]>>) } : {}),
  }));
  const wires = loom.wires.map((w) => ({ ...w, id: nameOf(w.id), from: nameOf(w.from), to: nameOf(w.to) }));
  return {
    nameOf,
    loom: {
      ...loom,
      system: {
        ...loom.system,
        ...(loom.system.reference === undefined ? {} : { reference: nameOf(loom.system.reference) }),
      },
      definitions: conditions(loom.definitions) as Loom["definitions"],
      parts: shuffled(parts, rnd),
      wires: shuffled(wires, rnd),
      world: shuffled(
        loom.world.map((w) =>
          "never" in w
            ? { ...w, never: keys(w.never) }
            : { ...w, ...(w.moves === undefined ? {} : { moves: w.moves.map(nameOf) }) },
        ),
        rnd,
      ),
      accepted: [],
      remarks: [],
      intents: [],
      meant: [],
    },
  };
}
