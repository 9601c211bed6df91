import type { WorldMove } from "../behave/explore.ts";
import type { Event } from "../behave/flight.ts";
import type { State } from "../behave/state.ts";
import type { Circuit, Input, Load } from "../circuit/circuit.ts";

// The words a person reads. Numbers as `interface.md` has them: volts with two decimals below 10, one above; amps with
// three figures, mA below 1 A.

const NB = "\u00a0";
/** Nothing has no sign. */
const unsigned = (text: string): string => text.replace(/^-(?=[0.]*$)/, "");
const sign = (text: string): string => text.replace(/^-/, "\u2212");

export const volts = (v: number): string => `${sign(unsigned(v.toFixed(Math.abs(v) < 10 ? 2 : 1)))}${NB}V`;

export function amps(a: number): string {
  const milli = Math.abs(a) < 1;
  const value = milli ? a * 1000 : a;
  return `${sign(String(Number(value.toPrecision(3))))}${NB}${milli ? "mA" : "A"}`;
}

/** Seconds to three figures, milliseconds below 1 s. */
export const seconds = (s: number): string =>
  s < 1 ? `${Number((s * 1000).toPrecision(3))}${NB}ms` : `${Number(s.toPrecision(3))}${NB}s`;

/** Milliseconds from seconds: one decimal below 100. */
export const millis = (seconds: number): string => {
  const ms = seconds * 1e3;
  return `${ms < 100 ? Number(ms.toFixed(1)) : Math.round(ms)}${NB}ms`;
};

export const list = (items: readonly string[], word = "and"): string =>
  items.length <= 1 ? (items[0] ?? "") : `${items.slice(0, -1).join(", ")} ${word} ${items[items.length - 1]}`;

/** "Fuel feed K3", or "K3" where there is no label. */
export const named = (id: string, label: string): string => (label === "" ? id : `${label} ${id}`);
export const namedLoad = (load: Load): string => named(load.part, load.label);

/** "Key run and A1.4 on": where the key stands, and every other input that does not stand as usual. */
export function standing(circuit: Circuit, state: State): string {
  const all = circuit.inputs.map((input, i) => ({ input, stand: state.stands[i] ?? 0 }));
  const keys = all.filter(({ input }) => input.isKey);
  const others = all.filter(({ input, stand }) => !input.isKey && stand !== input.usual);
  const shown = [...keys, ...others].map(({ input, stand }) => `${inputName(input)} ${input.stands[stand]}`);
  return shown.length === 0 ? "the battery connected" : list(shown);
}

/** A switch by its label, anything else by its id. */
const inputName = (input: Input): string => (input.label === "" || input.kind !== "switch" ? input.id : input.label);

export const inputsOf = (circuit: Circuit, state: State): Readonly<Record<string, string>> =>
  Object.fromEntries(circuit.inputs.map((input, i) => [input.id, input.stands[state.stands[i] ?? 0] ?? ""]));

export const relaysIn = (circuit: Circuit, state: State): readonly string[] =>
  circuit.latches.flatMap((l, i) => (l.kind === "armature" && state.latches[i] === 1 ? [l.id] : []));

/** What the world did, as inputs set to positions. */
export function moveSet(circuit: Circuit, move: WorldMove): Readonly<Record<string, string>> {
  switch (move.kind) {
    case "power on":
      return {};
    case "timer":
      return { [`time passes: ${circuit.latches[move.latch]?.id ?? ""}`]: "" };
    case "inputs":
      return Object.fromEntries(
        move.set.map(({ input, stand }) => [
          circuit.inputs[input]?.id ?? "",
          circuit.inputs[input]?.stands[stand] ?? "",
        ]),
      );
    default:
      return move satisfies never;
  }
}

/** What happened, in order, without what nobody needs to hear of. */
export const eventsWords = (circuit: Circuit, events: readonly Event[]): readonly string[] =>
  events.flatMap((e) => {
    // That a contact is there is no news: its armature has been told of.
    const isContact = e.kind === "latch" && circuit.latches[e.latch]?.kind === "contact";
    const words = isContact ? "" : eventWords(circuit, e);
    return words === "" ? [] : [words];
  });

/** What happened then, in words; empty for what nobody needs to hear of. */
export function eventWords(circuit: Circuit, event: Event): string {
  if (event.kind === "stand") {
    const input = circuit.inputs[event.input];
    return `${input?.id} ${event.straightOn ? "is turned straight on to" : "reaches"} ${input?.stands[event.stand]}`;
  }
  const latch = circuit.latches[event.latch];
  if (latch === undefined) return "";
  if (latch.says !== undefined) {
    const says = event.on ? latch.says.on : latch.says.off;
    return says === "" ? "" : `${latch.part} ${says}`;
  }
  switch (latch.kind) {
    case "armature":
      return event.on ? `${latch.id} pulls in` : `${latch.id} lets go`;
    case "contact":
      return `${latch.part}'s ${event.on ? "make" : "rest"} contact closes`;
    case "awake":
      return event.on ? `${latch.part} wakes` : `${latch.part} falls asleep`;
    case "rail":
      return event.on ? `${latch.part} has its supply` : `${latch.part} loses its supply`;
    case "level":
      return `${latch.part} ${event.on ? "sees" : "no longer sees"} ${latch.label === "" ? latch.id : latch.label}`;
    case "state":
      return `${latch.id.slice(latch.part.length + 1)} of ${latch.part} ${event.on ? "begins" : "ends"}`;
    default:
      return latch.kind satisfies never;
  }
}
