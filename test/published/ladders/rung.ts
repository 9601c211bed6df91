import type { Ladder, Rung } from "./ladder.ts";

/** Buttons and relays that a rung has contacts of. */
const namedIn = (rung: Rung): readonly string[] => ("parts" in rung ? rung.parts.flatMap(namedIn) : [rung.of]);

/** The part of a ladder that these buttons and relays can hang on, in the order of the ladder. */
export function coneOf(
  ladder: Ladder,
  start: { readonly inputs: readonly string[]; readonly latches: readonly string[] },
): Ladder {
  const inside = new Set([...start.inputs, ...start.latches]);
  const open = [...start.latches];
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    const relay = ladder.relays.find((r) => r.id === id);
    for (const of of relay === undefined ? [] : namedIn(relay.rung)) {
      if (inside.has(of)) continue;
      inside.add(of);
      open.push(of);
    }
  }
  return {
    buttons: ladder.buttons.filter((b) => inside.has(b.id)),
    relays: ladder.relays.filter((r) => inside.has(r.id)),
  };
}

/** The same rung with its first relay contact the other way round: a make contact for a break contact. */
export function firstTurned(rung: Rung): Rung {
  if (rung.kind === "make" || rung.kind === "break") return { ...rung, kind: rung.kind === "make" ? "break" : "make" };
  if (!("parts" in rung)) return rung;
  const at = rung.parts.findIndex((p) => JSON.stringify(firstTurned(p)) !== JSON.stringify(p));
  return { ...rung, parts: rung.parts.map((p, i) => (i === at ? firstTurned(p) : p)) };
}
