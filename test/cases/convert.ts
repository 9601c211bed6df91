import { FORMAT, type Loom } from "@loomproof/netlist";
import type { Case, CasePart, CaseWire } from "./case-types.ts";
import { convertDevice, definitionId } from "./device.ts";
import { type Expected, expectedOf } from "./expected.ts";
import { convertLoad } from "./load.ts";
import { amps, metres, ohms, squareMm, volts } from "./quantities.ts";
import { convertRelay } from "./relay.ts";
import { convertSwitch } from "./switch.ts";
import { endOf, terminalNames } from "./terminals.ts";
import { convertMeant, convertWorld } from "./world.ts";

type LoomPart = Loom["parts"][number];
type LoomWire = Loom["wires"][number];

export type Conversion =
  | { readonly ok: true; readonly loom: Loom; readonly expected: Expected }
  | { readonly ok: false; readonly why: readonly string[] };

/** Volts above which a battery is that of a 24 V system. */
const TWELVE_VOLTS_MOST = 18;
const BOLTED_FROM_AMPS = 60;

/** One circuit as a loom: supply fixed, every value a point. Says why when the format has no words for a part. */
export function convertCase(one: Case): Conversion {
  const why: string[] = [];
  const parts = one.parts.flatMap((p) => convertPart(p, one, why));
  const definitions = one.parts.flatMap((p) => (p.kind === "device" ? [convertDevice(p, why)] : []));
  const reference = one.parts.find((p) => p.kind === "battery");
  if (reference === undefined) why.push("no battery to measure from");
  if (why.length > 0 || reference === undefined) return { ok: false, why: [...new Set(why)] };
  const note = noteOf(one);
  const loom: Loom = {
    format: FORMAT,
    title: one.title.slice(0, 200),
    ...(note === undefined ? {} : { note }),
    system: { volts: systemVolts(one), supply: "fixed", reference: `${reference.id}.-` },
    definitions,
    parts,
    wires: convertWires(one),
    world: convertWorld(one),
    intents: [],
    meant: convertMeant(one),
    accepted: [],
    remarks: [],
  };
  return { ok: true, loom, expected: expectedOf(one) };
}

function noteOf(one: Case): string | undefined {
  if (one.variant === "repaired") return `Repaired: ${one.changed_from_fault ?? ""}.`;
  return one.variant === "fault" ? `Symptom: ${one.symptom}.` : undefined;
}

/** 24 V where one battery says so, or two stand on each other. */
function systemVolts(one: Case): 12 | 24 {
  const batteries = one.parts.filter((p) => p.kind === "battery");
  const poles = new Set(batteries.flatMap((b) => [`${b.id}.+`, `${b.id}.-`]));
  const stacked = one.wires.some(
    (w) => poles.has(w.from) && poles.has(w.to) && w.from.endsWith(".+") !== w.to.endsWith(".+"),
  );
  return stacked || batteries.some((b) => b.volts > TWELVE_VOLTS_MOST) ? 24 : 12;
}

function convertPart(part: CasePart, one: Case, why: string[]): LoomPart | [] {
  switch (part.kind) {
    case "battery":
      return { id: part.id, is: "battery", volts: volts(part.volts), ohms: ohms(part.ohms) };
    case "joint":
      return convertJoint(part.id, part.what ?? "");
    case "fuse":
      return {
        id: part.id,
        is: "protector",
        kind: part.amps < BOLTED_FROM_AMPS ? "blade" : "bolt-down",
        rated: amps(part.amps),
        ohms: ohms(part.ohms),
      };
    case "diode":
      return { id: part.id, is: "diode", drop: volts(part.drop), ohms: ohms(part.ohms) };
    case "resistor":
      return { id: part.id, is: "resistor", ...labelled(part.what), ohms: ohms(part.ohms) };
    case "switch":
      return convertSwitch(part, one.inputs[part.id]?.start ?? "", one.parts);
    case "relay":
      return convertRelay(part, why);
    case "load":
      return convertLoad(part);
    case "device":
      return { id: part.id, is: "module", of: definitionId(part), ...labelled(part.what) };
    case "led":
      why.push(`${part.id} is a light-emitting lamp: no family for it yet`);
      return [];
    default:
      return part satisfies never;
  }
}

const labelled = (what: string | undefined): { label?: string } => (what === undefined ? {} : { label: what });

/** Body metal is a ground point whose wires meet on the stud: the joint under it carries nothing here. */
function convertJoint(id: string, what: string): LoomPart {
  if (what === "body metal") return { id, is: "ground-point", kind: "body", joint: ohms(0) };
  return { id, is: "splice", ...(what === "splice or stud" ? {} : labelled(what)) };
}

function convertWires(one: Case): LoomWire[] {
  const name = terminalNames(one);
  const numbered = withOwnIds(one.wires);
  return numbered.map((w) => ({
    id: w.id,
    from: endOf(name(w.from)),
    to: endOf(name(w.to)),
    size: squareMm(w.mm2),
    length: metres(w.metres),
    ohms: ohms(w.ohms),
    rated: amps(w.rated_amps),
    ...(w.unfused_by_practice === undefined ? {} : { unfusedBecause: w.unfused_by_practice }),
  }));
}

/** A wire that repeats an id gets the first free number. */
function withOwnIds(wires: readonly CaseWire[]): readonly CaseWire[] {
  const taken = new Set<string>();
  const all = new Set(wires.map((w) => w.id));
  return wires.map((w) => {
    let { id } = w;
    for (let n = 1; taken.has(id); n++) if (!all.has(`W${n}`)) id = `W${n}`;
    taken.add(id);
    all.add(id);
    return { ...w, id };
  });
}
