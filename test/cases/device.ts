import type { Loom } from "@loomproof/netlist";
import type { CaseCondition, CaseInside, DevicePart } from "./case-types.ts";
import { convertCondition } from "./condition.ts";
import { milliseconds, ohms, volts } from "./quantities.ts";

// Devices of a case: controllers, power modules, sensors, alternators, senders, bus nodes. Each becomes a module with a
// definition of its own, whose pins carry no electronics but what the case lists inside.

type Definition = Loom["definitions"][number];
type InsideText = NonNullable<Definition["inside"]>[number];
type StateText = NonNullable<Definition["states"]>[number];
type As = "load" | "stray" | "series" | "conductor";

/** States that mean "this device works", as opposed to "it sees something". */
const WORKING = new Set(["alive", "awake", "on", "hold", "excited", "sparks"]);

/** Paths nobody draws. */
const STRAY = ["pull-up", "pull-down", "leakage", "diagnosis"];
/** Tracks inside that join a return pin to the device's ground. */
const TRACKS = ["sensor ground"];
/** Resistances that something is meant to flow through on its way. */
const SERIES = ["input low side"];
/** Sources that are signals and feed nothing. */
const SIGNALS = ["tooth", "transmitting", "magneto"];

const says = (words: readonly string[], what: string): boolean => words.some((w) => what.includes(w));

export const definitionId = (part: DevicePart): string => part.id.toLowerCase();

export function convertDevice(part: DevicePart, why: string[]): Definition {
  const pinOf = (terminal: string): string => terminal.slice(terminal.indexOf(".") + 1);
  const states = part.logic.map(
    (l): StateText => ({
      id: l.name,
      when: convertCondition(l.when, pinOf, why),
      ...(l.on_delay_ms > 0 ? { on: milliseconds(l.on_delay_ms) } : {}),
      ...(l.off_delay_ms > 0 ? { off: milliseconds(l.off_delay_ms) } : {}),
      ...(WORKING.has(l.name) ? { counts: "on" as const } : {}),
    }),
  );
  const inside = part.inside.map((e) => convertInside(e, pinOf, why));
  const note = noteOf(part);
  return {
    id: definitionId(part),
    family: "module",
    kind: kindOf(part.what ?? ""),
    ...(part.what === undefined ? {} : { title: part.what }),
    from: { kind: "invented" },
    pins: part.terminals.map((pin) => ({
      pin,
      kind: "plain" as const,
      ...(wantsGround(part, pin) ? { wants: "ground" as const } : {}),
    })),
    ...(inside.length > 0 ? { inside } : {}),
    ...(states.length > 0 ? { states } : {}),
    ...(note === undefined ? {} : { note }),
  };
}

/** A pin held up inside, with a state that begins when its volts fall: it waits for ground. */
function wantsGround(part: DevicePart, pin: string): boolean {
  const isHeldUp = part.inside.some(
    (e) => e.type === "resistor" && e.between[0] === pin && (e.what ?? "").includes("pull-up"),
  );
  return isHeldUp && part.logic.some((l) => "not" in l.when && readsVolts(l.when.not, `${part.id}.${pin}`, pin));
}

const readsVolts = (condition: CaseCondition, ...names: readonly string[]): boolean =>
  "volts" in condition && names.includes(condition.volts[0]);

function kindOf(what: string): "controller" | "power-module" | "unit" {
  if (what.includes("power module")) return "power-module";
  return what.includes("controller") && !what.includes("sensor") ? "controller" : "unit";
}

function noteOf(part: DevicePart): string | undefined {
  const notes = [
    ...(part.intended === undefined ? [] : [`Meant by the owner: ${part.intended}.`]),
    ...(part.driver_max_volts === undefined ? [] : [`Its outputs stand ${part.driver_max_volts} V and have no clamp.`]),
  ];
  return notes.length === 0 ? undefined : notes.join(" ");
}

function convertInside(e: CaseInside, pinOf: (terminal: string) => string, why: string[]): InsideText {
  const what = e.what ?? e.type;
  const when = e.when === undefined ? {} : { when: convertCondition(e.when, pinOf, why) };
  switch (e.type) {
    case "resistor":
      return {
        kind: "resistor",
        between: [...e.between],
        ohms: ohms(e.ohms),
        as: resistorIs(what),
        ...when,
        says: what,
      };
    case "driver":
      return { kind: "driver", between: [...e.between], ohms: ohms(e.ohms), ...when, says: what };
    case "diode":
      return {
        kind: "diode",
        between: [e.anode, e.cathode],
        ...(e.ohms === undefined ? {} : { ohms: ohms(e.ohms) }),
        drop: volts(e.drop),
        ...when,
        says: what,
      };
    case "source":
      return {
        kind: "source",
        between: [...e.between],
        ohms: ohms(e.ohms),
        volts: volts(e.volts),
        ...(e.one_way ? { oneWay: true } : {}),
        ...(says(SIGNALS, what) ? { as: "stray" as const } : {}),
        ...when,
        says: what,
      };
    default:
      return e satisfies never;
  }
}

function resistorIs(what: string): As {
  if (says(STRAY, what)) return "stray";
  if (says(TRACKS, what)) return "conductor";
  return says(SERIES, what) ? "series" : "load";
}
