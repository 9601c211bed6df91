import { z } from "zod";
import { quantityValue } from "../units/quantity.ts";
import { type Condition, conditionSchema, readCondition } from "./condition.ts";
import { quantityText, type Span } from "./field.ts";

// Controllers, power modules and gauges with electronics are one family whose whole nature is data: a pin table,
// inside rails, inside elements and logic. Catalogue definitions and the user's own have the same schema.

const name = z.string().min(1).max(60);
const note = z.string().max(2000).optional();
const yesNoUnknown = z.enum(["yes", "no", "unknown"]);
const spanText = (dimension: "volts" | "amps" | "seconds") =>
  z.union([quantityText(dimension), z.tuple([quantityText(dimension), quantityText(dimension)])]);

const drawSchema = z.union([
  quantityText("amps"),
  z
    .array(z.tuple([quantityText("volts"), spanText("amps")]))
    .min(2)
    .max(20),
]);

const railSchema = z.strictObject({
  id: name,
  fedBy: z.union([name, z.array(name).min(1).max(8)]),
  through: z.enum(["none", "diode", "blocking"]).default("none"),
  draw: drawSchema.optional(),
  wakesAt: spanText("volts").optional(),
  resetsAt: spanText("volts").optional(),
  note,
});

const clampSchema = z.union([
  z.enum(["none", "unknown"]),
  z.strictObject({ kind: z.literal("diode"), to: name }),
  z.strictObject({ kind: z.literal("zener"), volts: quantityText("volts") }),
]);

/** What a pin can be. */
export const PIN_KINDS = [
  "supply",
  "ground",
  "input",
  "low-side",
  "high-side",
  "half-bridge",
  "supply-out",
  "sensor-ground",
  "plain",
] as const;

const pinSchema = z.strictObject({
  pin: name,
  name: z.string().max(80).optional(),
  kind: z.enum(PIN_KINDS),
  rated: quantityText("amps").optional(),
  verified: z.enum(["measured", "maker", "heard"]).optional(),
  wants: z.enum(["battery", "ground"]).optional(),
  bias: z
    .union([
      z.strictObject({ up: quantityText("ohms"), to: name.optional() }),
      z.strictObject({ down: quantityText("ohms") }),
    ])
    .optional(),
  low: quantityText("volts").optional(),
  high: quantityText("volts").optional(),
  wakes: z.boolean().optional(),
  wakeFeeds: z.array(name).max(40).optional(),
  limitDiode: yesNoUnknown.optional(),
  clamp: clampSchema.optional(),
  bodyDiode: yesNoUnknown.optional(),
  feed: name.optional(),
  volts: quantityText("volts").optional(),
  ohms: quantityText("ohms").optional(),
  note,
});

const insideSchema = z.strictObject({
  kind: z.enum(["resistor", "diode", "source", "driver"]),
  between: z.tuple([name, name]),
  ohms: quantityText("ohms").optional(),
  volts: quantityText("volts").optional(),
  drop: quantityText("volts").optional(),
  oneWay: z.boolean().optional(),
  // What a resistor counts as; a conductor is a track. A source that says "stray" is a signal and feeds nothing.
  as: z.enum(["load", "stray", "series", "conductor"]).optional(),
  when: conditionSchema.optional(),
  says: z.string().max(200).optional(),
});

const stateSchema = z.strictObject({
  id: name,
  when: conditionSchema,
  on: spanText("seconds").optional(),
  off: spanText("seconds").optional(),
  counts: z.enum(["on", "no"]).optional(),
  note,
});

const logicSchema = z.strictObject({
  awake: conditionSchema.optional(),
  boot: spanText("seconds").optional(),
  stayAwake: z.strictObject({ for: spanText("seconds"), note }).optional(),
  on: z.record(name, conditionSchema).optional(),
});

export const moduleDefinitionSchema = z.strictObject({
  id: z.string().regex(/^@?[A-Za-z0-9][A-Za-z0-9_-]{0,59}$/, { error: "letters, digits, - and _" }),
  family: z.literal("module"),
  kind: z.enum(["controller", "power-module", "unit"]).optional(),
  title: z.string().max(200).optional(),
  from: z
    .strictObject({ kind: z.enum(["measured", "maker", "heard", "invented"]), text: z.string().max(500).optional() })
    .optional(),
  harm: z.enum(["crank", "move", "fuel", "heat", "none"]).optional(),
  rails: z.array(railSchema).max(8).optional(),
  pins: z.array(pinSchema).min(1).max(400),
  inside: z.array(insideSchema).max(400).optional(),
  states: z.array(stateSchema).max(40).optional(),
  logic: logicSchema.optional(),
  note,
});

export type ModuleDefinitionText = z.infer<typeof moduleDefinitionSchema>;

/** A point of a draw curve: amps between least and most at these volts. */
export interface DrawPoint {
  readonly volts: number;
  readonly amps: Span;
}

export interface Rail {
  readonly id: string;
  readonly fedBy: readonly string[];
  readonly through: "none" | "diode" | "blocking";
  readonly draw: readonly DrawPoint[];
  readonly wakesAt: Span;
  readonly resetsAt: Span;
}

type Clamp =
  | { readonly kind: "none" | "unknown" }
  | { readonly kind: "diode"; readonly to: string }
  | { readonly kind: "zener"; readonly volts: number };

type PinText = z.infer<typeof pinSchema>;

export interface Pin {
  readonly pin: string;
  readonly name: string;
  readonly kind: PinText["kind"];
  readonly wants: "battery" | "ground";
  /** Whether the file says so, or it is only taken. */
  readonly saysWants: boolean;
  readonly bias: { readonly way: "up" | "down"; readonly ohms: number; readonly to: string | undefined } | undefined;
  readonly low: number;
  readonly high: number;
  readonly wakes: boolean;
  readonly wakeFeeds: readonly string[];
  readonly limitDiode: "yes" | "no" | "unknown";
  readonly clamp: Clamp;
  readonly bodyDiode: "yes" | "no" | "unknown";
  readonly feed: string | undefined;
  readonly volts: number;
  readonly ohms: number;
}

export interface InsideElement {
  readonly kind: "resistor" | "diode" | "source" | "driver";
  readonly between: readonly [string, string];
  readonly ohms: number;
  readonly volts: number;
  readonly drop: number;
  readonly oneWay: boolean;
  readonly as: "load" | "stray" | "series" | "conductor";
  readonly when: Condition | undefined;
  readonly says: string;
}

export interface ModuleState {
  readonly id: string;
  readonly when: Condition;
  readonly on: Span;
  readonly off: Span;
  readonly counts: boolean;
}

export interface ModuleDefinition {
  readonly id: string;
  readonly kind: "controller" | "power-module" | "unit";
  readonly title: string;
  readonly harm: "crank" | "move" | "fuel" | "heat" | "none";
  readonly rails: readonly Rail[];
  readonly pins: readonly Pin[];
  readonly inside: readonly InsideElement[];
  readonly states: readonly ModuleState[];
  readonly awake: Condition | undefined;
  readonly boot: Span;
  readonly stayAwake: Span;
  /** Pins whose logic is known. An output pin without an entry is a request: on or off as the world likes. */
  readonly on: ReadonlyMap<string, Condition>;
}

/** Defaults of modules. All from memory unless said. */
export const MODULE_DEFAULTS = {
  wakesAt: { least: 6, most: 6.5 },
  resetsAt: { least: 4.5, most: 5 },
  boot: { least: 0.02, most: 0.2 },
  low: 1.5,
  high: 3.5,
  channelOhms: 0.1,
  supplyOutOhms: 0.5,
  insideGroundOhms: 0.01,
} as const;

type SpanText = string | [string, string];
const readSpan = (raw: SpanText | undefined, dimension: "volts" | "amps" | "seconds", standard: Span): Span => {
  if (raw === undefined) return standard;
  const [a, b] = (typeof raw === "string" ? [raw, raw] : raw).map((t) => quantityValue(t, dimension)) as [
    number,
    number,
  ];
  return { least: Math.min(a, b), most: Math.max(a, b) };
};

/** A draw given as one value: constant above `resetsAt`, anything from 0 to the proportional share below it. */
function readDraw(raw: z.infer<typeof drawSchema> | undefined, resetsAt: Span): readonly DrawPoint[] {
  if (raw === undefined) return [];
  if (typeof raw !== "string")
    return raw
      .map(([volts, amps]) => ({
        volts: quantityValue(volts, "volts"),
        amps: readSpan(amps, "amps", { least: 0, most: 0 }),
      }))
      .sort((a, b) => a.volts - b.volts);
  const amps = quantityValue(raw, "amps");
  return [
    { volts: 0, amps: { least: 0, most: 0 } },
    { volts: resetsAt.least, amps: { least: 0, most: amps } },
    { volts: resetsAt.least * 1.2, amps: { least: amps, most: amps } },
  ];
}

function readPin(p: PinText): Pin {
  const volts = p.volts === undefined ? 5 : quantityValue(p.volts, "volts");
  const ohms = p.kind === "supply-out" ? MODULE_DEFAULTS.supplyOutOhms : MODULE_DEFAULTS.channelOhms;
  return {
    pin: p.pin,
    name: p.name ?? p.pin,
    kind: p.kind,
    wants: p.wants ?? "battery",
    saysWants: p.wants !== undefined,
    bias:
      p.bias === undefined
        ? undefined
        : "up" in p.bias
          ? { way: "up", ohms: quantityValue(p.bias.up, "ohms"), to: p.bias.to }
          : { way: "down", ohms: quantityValue(p.bias.down, "ohms"), to: undefined },
    low: p.low === undefined ? MODULE_DEFAULTS.low : quantityValue(p.low, "volts"),
    high: p.high === undefined ? MODULE_DEFAULTS.high : quantityValue(p.high, "volts"),
    wakes: p.wakes ?? false,
    wakeFeeds: p.wakeFeeds ?? [],
    limitDiode: p.limitDiode ?? (p.kind === "input" ? "unknown" : "no"),
    clamp: readClamp(p),
    bodyDiode: p.bodyDiode ?? "yes",
    feed: p.feed,
    volts,
    ohms: p.ohms === undefined ? ohms : quantityValue(p.ohms, "ohms"),
  };
}

function readClamp(p: PinText): Clamp {
  if (p.clamp === undefined) return { kind: p.kind === "low-side" ? "unknown" : "none" };
  if (typeof p.clamp === "string") return { kind: p.clamp };
  return p.clamp.kind === "zener" ? { kind: "zener", volts: quantityValue(p.clamp.volts, "volts") } : p.clamp;
}

const INSTANT: Span = { least: 0, most: 0 };

/** A definition of the file in memory, with its defaults filled in. Volts, amps, ohms, seconds. */
export function readModuleDefinition(raw: ModuleDefinitionText): ModuleDefinition {
  const rails = (raw.rails ?? []).map((r): Rail => {
    const resetsAt = readSpan(r.resetsAt, "volts", MODULE_DEFAULTS.resetsAt);
    return {
      id: r.id,
      fedBy: typeof r.fedBy === "string" ? [r.fedBy] : r.fedBy,
      through: r.through,
      draw: readDraw(r.draw, resetsAt),
      wakesAt: readSpan(r.wakesAt, "volts", MODULE_DEFAULTS.wakesAt),
      resetsAt,
    };
  });
  return {
    id: raw.id,
    kind: raw.kind ?? "controller",
    title: raw.title ?? raw.id,
    harm: raw.harm ?? "none",
    rails,
    pins: raw.pins.map(readPin),
    inside: (raw.inside ?? []).map((e) => ({
      kind: e.kind,
      between: e.between,
      ohms: e.ohms === undefined ? 0.05 : quantityValue(e.ohms, "ohms"),
      volts: e.volts === undefined ? 0 : quantityValue(e.volts, "volts"),
      drop: e.drop === undefined ? 0.7 : quantityValue(e.drop, "volts"),
      oneWay: e.oneWay ?? false,
      as: e.as ?? "load",
      when: e.when === undefined ? undefined : readCondition(e.when),
      says: e.says ?? e.kind,
    })),
    states: (raw.states ?? []).map((s) => ({
      id: s.id,
      when: readCondition(s.when),
      on: readSpan(s.on, "seconds", INSTANT),
      off: readSpan(s.off, "seconds", INSTANT),
      counts: s.counts === "on",
    })),
    awake: raw.logic?.awake === undefined ? undefined : readCondition(raw.logic.awake),
    boot: readSpan(raw.logic?.boot, "seconds", MODULE_DEFAULTS.boot),
    stayAwake: readSpan(raw.logic?.stayAwake?.for, "seconds", INSTANT),
    on: new Map(Object.entries(raw.logic?.on ?? {}).map(([pin, cond]) => [pin, readCondition(cond)])),
  };
}
