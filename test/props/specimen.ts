import {
  COIL_CELSIUS,
  copperFactor,
  type DrawPoint,
  families,
  type Loom,
  loomSchema,
  type ModuleDefinition,
  type Part,
  resolve,
  type Span,
  SUPPLY_12V,
} from "@loomproof/netlist";
import { random } from "./random.ts";

// One vehicle out of all that a drawing allows: every threshold, time, draw, supply and coil temperature at one value
// inside its spread, each by itself. The runs of the analysis go to the corners of these together; this goes between.

type Raw = Record<string, unknown>;
type Rnd = () => number;

const UNIT: Readonly<Record<string, string>> = { volts: "V", amps: "A", seconds: "s", ohms: "ohm" };
const text = (value: number, unit: string): string => `${Number(value.toFixed(7))} ${unit}`;
const within = ({ least, most }: Span, rnd: Rnd): number => least + (most - least) * rnd();

/** A loom of point values, drawn from the spreads of `loom`. Same seed, same loom. */
export function specimenOf(loom: Loom, seed: number): Loom {
  const rnd = random(seed);
  const { parts, systemVolts } = resolve(loom);
  const supply = { rest: within(SUPPLY_12V.rest, rnd), running: within(SUPPLY_12V.running, rnd) };
  const known = new Map(parts.map((p) => [p.id, p]));
  const definitions = new Map(parts.flatMap((p) => (p.family === "module" ? [[p.definition.id, p.definition]] : [])));
  const isPresent = somePins(definitions, rnd);
  return loomSchema.parse({
    ...loom,
    system: { ...loom.system, supply: "fixed" },
    definitions: loom.definitions.map((d) => {
      const read = definitions.get(d.id);
      return read === undefined ? d : withDefinition(d as Raw, read, isPresent, rnd);
    }),
    parts: loom.parts.map((raw) => {
      const part = known.get(raw.id);
      return part === undefined ? raw : withPart(raw as Raw, part, supply, systemVolts, rnd);
    }),
  });
}

interface Supply {
  readonly rest: number;
  readonly running: number;
}

function withPart(raw: Raw, part: Part, supply: Supply, systemVolts: number, rnd: Rnd): Raw {
  const values = part.values as Readonly<Record<string, unknown>>;
  const spans = new Map<string, number>();
  const units = new Map<string, string>();
  for (const [key, field] of Object.entries(families[part.family].fields)) {
    if (field.form.kind !== "span") continue;
    spans.set(key, within(values[key] as Span, rnd));
    units.set(key, UNIT[field.form.unit] ?? "");
  }
  const release = spans.get("release");
  if (release !== undefined) {
    // Any one relay lets go below where it pulls in.
    const { least, most } = values.operate as Span;
    const low = Math.min(release, most * 0.999);
    spans.set("release", low);
    spans.set("operate", within({ least: Math.max(least, low * 1.001), most }, rnd));
  }
  const point = (): Raw =>
    Object.fromEntries([...spans].map(([key, value]) => [key, text(value, units.get(key) ?? "")]));
  const hot = copperFactor(within({ least: COIL_CELSIUS.cold, most: COIL_CELSIUS.hot }, rnd));
  /** A warm coil has more ohms; the amps at which it moves stay, so its volts grow alike. */
  const warmed = (...coils: readonly string[]): Raw => {
    for (const key of ["operate", "release"]) spans.set(key, (spans.get(key) ?? 0) * hot);
    return {
      ...point(),
      ...Object.fromEntries(coils.map((key) => [key, text((values[key] as number) * hot, "ohm")])),
    };
  };
  const emf = (usual: number, now: number) =>
    text(((values.volts as number | undefined) ?? usual) * (now / usual), "V");
  const scale = systemVolts / 12;
  switch (part.family) {
    case "battery":
      return { ...raw, ...point(), volts: emf(SUPPLY_12V.rest.usual * scale, supply.rest * scale) };
    case "alternator":
      return { ...raw, ...point(), volts: emf(SUPPLY_12V.running.usual * scale, supply.running * scale) };
    case "starter":
      return { ...raw, ...warmed("pullIn", "holdIn") };
    case "relay": {
      const windings = raw.windings as readonly Raw[] | undefined;
      const own = windings?.map((w, i) => {
        const ohms = part.values.windings[i]?.ohms;
        return ohms === undefined ? w : { ...w, ohms: text(ohms * hot, "ohm") };
      });
      return { ...raw, ...warmed("coil"), ...(own === undefined ? {} : { windings: own }) };
    }
    default:
      return { ...raw, ...point() };
  }
}

/** Unknown pins as one of the runs has them: all absent, all present, or one present. */
function somePins(
  definitions: ReadonlyMap<string, ModuleDefinition>,
  rnd: Rnd,
): (definition: string, pin: string) => boolean {
  const all = [...definitions.values()].flatMap((d) => d.pins.filter(isUnknown).map((p) => `${d.id}.${p.pin}`));
  const way = Math.floor(rnd() * 3);
  const one = all[Math.floor(rnd() * all.length)];
  return (definition, pin) => way === 1 || (way === 2 && `${definition}.${pin}` === one);
}

const isUnknown = (p: ModuleDefinition["pins"][number]): boolean =>
  p.limitDiode === "unknown" || p.bodyDiode === "unknown" || p.clamp.kind === "unknown";

function withDefinition(
  raw: Raw,
  read: ModuleDefinition,
  isPresent: (definition: string, pin: string) => boolean,
  rnd: Rnd,
): Raw {
  const share = rnd();
  const seconds = (span: Span) => text(within(span, rnd), "s");
  const [rail] = read.rails;
  const logic = raw.logic as Raw | undefined;
  return {
    ...raw,
    pins: (raw.pins as readonly Raw[]).map((pin, i) => {
      const p = read.pins[i] as ModuleDefinition["pins"][number];
      const is = isPresent(read.id, p.pin);
      const clamp = is && rail !== undefined ? { kind: "diode", to: rail.id } : "none";
      return {
        ...pin,
        ...(p.limitDiode === "unknown" ? { limitDiode: is ? "yes" : "no" } : {}),
        ...(p.bodyDiode === "unknown" ? { bodyDiode: is ? "yes" : "no" } : {}),
        ...(p.clamp.kind === "unknown" ? { clamp } : {}),
      };
    }),
    ...(read.rails.length === 0
      ? {}
      : { rails: (raw.rails as readonly Raw[]).map((r, i) => withRail(r, read.rails[i], share, rnd)) }),
    ...(raw.states === undefined
      ? {}
      : {
          states: (raw.states as readonly Raw[]).map((s, i) => ({
            ...s,
            on: seconds(read.states[i]?.on ?? NONE),
            off: seconds(read.states[i]?.off ?? NONE),
          })),
        }),
    ...(logic === undefined
      ? {}
      : {
          logic: {
            ...logic,
            boot: seconds(read.boot),
            ...(logic.stayAwake === undefined ? {} : { stayAwake: { for: seconds(read.stayAwake) } }),
          },
        }),
  };
}

const NONE: Span = { least: 0, most: 0 };

function withRail(raw: Raw, read: ModuleDefinition["rails"][number] | undefined, share: number, rnd: Rnd): Raw {
  if (read === undefined) return raw;
  const resets = within(read.resetsAt, rnd);
  const wakes = within({ least: Math.max(read.wakesAt.least, resets), most: Math.max(read.wakesAt.most, resets) }, rnd);
  const draw = ({ volts, amps }: DrawPoint) => [
    text(volts, "V"),
    text(amps.least + (amps.most - amps.least) * share, "A"),
  ];
  return {
    ...raw,
    resetsAt: text(resets, "V"),
    wakesAt: text(wakes, "V"),
    ...(read.draw.length === 0 ? {} : { draw: read.draw.map(draw) }),
  };
}
