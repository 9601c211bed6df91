import type { Circuit } from "../circuit/circuit.ts";
import { eventWords } from "../facts/words.ts";
import type { Happening } from "../timeline/happening.ts";

/** What happened in a timeline, in words; empty for what nobody needs to hear of. */
export function happeningWords(circuit: Circuit, h: Happening): string {
  switch (h.kind) {
    case "move":
      return `${circuit.inputs[h.input]?.id} to ${circuit.inputs[h.input]?.stands[h.stand]}`;
    case "stand": {
      const input = circuit.inputs[h.input];
      const [from, to] = input?.stands[h.stand]?.split("~") ?? [];
      return h.stand < (input?.positions ?? 0)
        ? eventWords(circuit, { ...h, straightOn: false })
        : `${input?.id} passes between ${from} and ${to}`;
    }
    case "latch":
      return latchWords(circuit, h);
    case "begins":
    case "recalled":
      return wayWords(circuit, h);
    default:
      return h satisfies never;
  }
}

/** A relay is in from its make contact closing to that opening again; meanwhile its rest contact moves. */
function latchWords(circuit: Circuit, h: Extract<Happening, { kind: "latch" }>): string {
  const latch = relayOf(circuit, h.latch);
  const rest = restContactOf(circuit, h);
  if (rest === undefined) return eventWords(circuit, { ...h, latch });
  return `rest contact of ${circuit.latches[latch]?.id} ${rest === "open" ? "opens" : "closes"}`;
}

/** The latch by which a relay is known: of a contact that of its armature. */
export const relayOf = ({ latches }: Circuit, latch: number): number => latches[latch]?.carriedBy ?? latch;

/** What the rest contact of a relay does with this, if that is what it does. */
export function restContactOf(
  { latches, coils }: Circuit,
  { latch, on }: Extract<Happening, { kind: "latch" }>,
): "open" | "closed" | undefined {
  if (coils.some((c) => c.latch === latch && c.sides === "rest")) return on ? "open" : "closed";
  const { carries, carriedBy } = latches[latch] ?? {};
  if (carries !== undefined && on) return "open";
  return carriedBy !== undefined && !on ? "closed" : undefined;
}

/** Of relays only: what else takes its time says so when it is done. */
function wayWords(circuit: Circuit, { kind, latch, on }: Extract<Happening, { latch: number }>): string {
  const about = circuit.latches[latch];
  if (about?.kind !== "armature") return "";
  if (kind === "recalled") return `${about.id} ${on ? "stays out" : "stays in"} after all`;
  return on ? `coil of ${about.id} is strong enough to pull in` : `coil of ${about.id} is too weak to hold`;
}
