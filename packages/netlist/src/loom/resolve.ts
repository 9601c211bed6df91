import { type FamilyId, type FamilyValues, families } from "../parts/families.ts";
import type { Harm, Terminal } from "../parts/family.ts";
import { type ModuleDefinition, readModuleDefinition } from "../parts/module-definition.ts";
import { copperOhms } from "../reference/copper.ts";
import { quantityValue } from "../units/quantity.ts";
import { type Intent, readIntents } from "./intents.ts";
import { naturalOrder } from "./natural-order.ts";
import type { Loom, PartText, WireText } from "./schema.ts";
import { readSealIns, type SealIn } from "./seal-ins.ts";
import { readTerminal, type TerminalRef } from "./terminal-ref.ts";
import { terminalsOf, valuesOf } from "./terminals.ts";

interface PartOf<K extends FamilyId> {
  readonly id: string;
  readonly family: K;
  readonly kind: string;
  readonly label: string;
  readonly harm: Harm;
  readonly values: FamilyValues<K>;
  readonly terminals: readonly Terminal[];
  /** The ground point whose metal the body of this part sits on. */
  readonly caseAt: string | undefined;
  /** Fields that the file leaves open, filled from the catalogue. */
  readonly assumed: readonly string[];
}

/** A part with its values in SI. */
export type Part = {
  [K in FamilyId]: K extends "module" ? PartOf<K> & { readonly definition: ModuleDefinition } : PartOf<K>;
}[FamilyId];

export type PartWith<K extends FamilyId> = Extract<Part, { family: K }>;

export interface Wire {
  readonly id: string;
  readonly from: TerminalRef;
  readonly to: TerminalRef;
  readonly areaMm2: number | undefined;
  readonly lengthM: number;
  readonly lengthAssumed: boolean;
  /** At 20 °C, with a floor of 0.1 mΩ: a wire is never an ideal short. */
  readonly ohms: number;
  readonly colour: string | undefined;
  readonly cover: "sleeved" | "bare" | "screened" | "twisted" | undefined;
  /** Continuous current that the owner gives, A. */
  readonly rated: number | undefined;
  /** Why the owner leaves it without a fuse. */
  readonly unfusedBecause: string | undefined;
}

/** What people and weather move besides switches. */
export interface WorldInput {
  readonly id: string;
  readonly label: string;
  readonly values: readonly string[];
  readonly usual: string;
  /** Switches that follow this input, position by position. */
  readonly moves: readonly string[];
}

/** A loom with every value in SI: what the analyzer reads. */
export interface ResolvedLoom {
  readonly title: string;
  readonly systemVolts: number;
  readonly supply: "ranges" | "fixed";
  readonly reference: TerminalRef | undefined;
  readonly parts: readonly Part[];
  readonly wires: readonly Wire[];
  readonly world: readonly WorldInput[];
  /** Values of inputs that never stand together. */
  readonly never: readonly Readonly<Record<string, string>>[];
  /** What the owner wants. */
  readonly intents: readonly Intent[];
  /** Relays that are meant to hold themselves in. */
  readonly sealIns: readonly SealIn[];
}

const LEAST_WIRE_OHMS = 1e-4;
const LENGTH_UNKNOWN_M = 1;
const SIZE_UNKNOWN_MM2 = 1;

const byId = (a: { readonly id: string }, b: { readonly id: string }) => naturalOrder(a.id, b.id);

function resolvePart(raw: PartText, systemVolts: number, definitions: ReadonlyMap<string, ModuleDefinition>): Part {
  const family = families[raw.is];
  const kind = raw.kind ?? family.kinds[0];
  const { values, assumed } = valuesOf(raw, systemVolts);
  const definition = raw.of === undefined ? undefined : definitions.get(raw.of);
  if (raw.is === "module" && definition === undefined)
    throw new Error(`module ${raw.id} was not checked: no definition`);
  const terminals = terminalsOf(raw, values, definition);
  return {
    id: raw.id,
    family: raw.is,
    kind,
    label: raw.label ?? "",
    harm: raw.harm ?? definition?.harm ?? family.harm(kind),
    values,
    terminals,
    caseAt: raw.case === undefined ? undefined : readTerminal(raw.case).part,
    assumed,
    ...(definition === undefined ? {} : { definition }),
  } as unknown as Part;
}

function resolveWire(raw: WireText, lengthUnknownM: number): Wire {
  const areaMm2 = raw.size === undefined ? undefined : quantityValue(raw.size, "areaMm2");
  const given = typeof raw.length === "string" ? quantityValue(raw.length, "metres") : undefined;
  const lengthM = given ?? lengthUnknownM;
  const ohms =
    raw.ohms === undefined ? copperOhms(lengthM, areaMm2 ?? SIZE_UNKNOWN_MM2) : quantityValue(raw.ohms, "ohms");
  return {
    id: raw.id,
    from: readTerminal(raw.from),
    to: readTerminal(raw.to),
    areaMm2,
    lengthM,
    lengthAssumed: given === undefined,
    ohms: Math.max(ohms, LEAST_WIRE_OHMS),
    colour: raw.colour,
    cover: raw.cover,
    rated: raw.rated === undefined ? undefined : quantityValue(raw.rated, "amps"),
    unfusedBecause: raw.unfusedBecause,
  };
}

/** Every value in SI, defaults filled in, lists in natural order of id. The loom must have passed `parse`. */
export function resolve(loom: Loom): ResolvedLoom {
  const definitions = new Map(loom.definitions.map((d) => [d.id, readModuleDefinition(d)]));
  const lengthUnknownM =
    loom.system.lengthUnknown === undefined ? LENGTH_UNKNOWN_M : quantityValue(loom.system.lengthUnknown, "metres");
  const world: WorldInput[] = [];
  const never: Readonly<Record<string, string>>[] = [];
  for (const item of loom.world) {
    if ("never" in item) never.push(item.never);
    else
      world.push({
        id: item.id,
        label: item.label ?? "",
        values: item.values,
        usual: item.usual,
        moves: item.moves ?? [],
      });
  }
  return {
    title: loom.title ?? "",
    systemVolts: loom.system.volts,
    supply: loom.system.supply,
    reference: loom.system.reference === undefined ? undefined : readTerminal(loom.system.reference),
    parts: loom.parts.map((p) => resolvePart(p, loom.system.volts, definitions)).sort(byId),
    wires: loom.wires.map((w) => resolveWire(w, lengthUnknownM)).sort(byId),
    world: world.sort(byId),
    never,
    intents: readIntents(loom.intents),
    sealIns: readSealIns(loom.meant),
  };
}
