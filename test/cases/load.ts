import type { Loom } from "@loomproof/netlist";
import type { LoadPart } from "./case-types.ts";
import { ohms, volts } from "./quantities.ts";

// Loads of a case are plain resistances with two thresholds. The words say what they are.

type LoomPart = Loom["parts"][number];
type Nature = {
  readonly is: "motor" | "lamp" | "heater";
  readonly kind?: string;
  readonly harm?: "fuel" | "move" | "crank" | "none";
};

const NATURES: readonly (readonly [words: readonly string[], nature: Nature])[] = [
  [["pump"], { is: "motor", kind: "pump", harm: "fuel" }],
  [["starter", "solenoid"], { is: "motor", kind: "starter" }],
  [["fan"], { is: "motor", kind: "fan" }],
  [["motor", "magnets"], { is: "motor" }],
  [["charge lamp", "warning lamp", "pilot lamp", "tell-tale"], { is: "lamp", kind: "indicator" }],
  [["lamp", "beams", "dip", "main 2x55"], { is: "lamp" }],
  [["heater"], { is: "heater" }],
  [["injection", "injectors"], { is: "lamp", harm: "fuel" }],
];
/** Radio, gauges, ignition, clock, horn: mere resistance. */
const OTHER: Nature = { is: "lamp", harm: "none" };

export const natureOf = (part: LoadPart): Nature =>
  NATURES.find(([words]) => words.some((w) => (part.what ?? "").includes(w)))?.[1] ?? OTHER;

export function convertLoad(part: LoadPart): LoomPart {
  const { is, kind, harm } = natureOf(part);
  return {
    id: part.id,
    is,
    ...(kind === undefined ? {} : { kind }),
    ...(part.what === undefined ? {} : { label: part.what }),
    ohms: ohms(part.ohms),
    onAbove: volts(part.on_volts),
    partlyAbove: volts(part.dim_volts),
    ...(part.low_ok === undefined ? {} : { lowIsMeant: part.low_ok }),
    ...(part.emf === undefined ? {} : { emf: { input: part.emf.input, volts: mapped(part.emf.volts) } }),
    ...(harm === undefined ? {} : { harm }),
    ...(part.intended === undefined ? {} : { note: `Meant by the owner: ${part.intended}.` }),
  };
}

const mapped = (byValue: Readonly<Record<string, number>>): Record<string, string> =>
  Object.fromEntries(Object.entries(byValue).map(([value, v]) => [value, volts(v)]));
