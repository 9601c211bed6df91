import {
  type FamilyId,
  type Loom,
  type Part,
  type PartWith,
  type ResolvedLoom,
  resolve,
  terminalText,
} from "@loomproof/netlist";
import { slowedBeside } from "./beside-coils.ts";
import type { Circuit, Input, Latch, Load, OpenEnd } from "./circuit.ts";
import { Door } from "./door.ts";
import { type Draft, emptyDraft, nodeAt } from "./draft.ts";
import type { EngineLatches } from "./engine.ts";
import { type Context, circuits } from "./families.ts";
import { intentionsOf } from "./intents.ts";
import { freely } from "./positions.ts";
import { sealClaimsOf } from "./seal-claims.ts";

/** The case of a part touches metal through a joint of its own: common practice, no source. */
const CASE_OHMS = 0.0005;
const LEAST_OHMS = 1e-4;

/** A loom as a circuit. Same loom, same circuit: parts and wires go in by natural order of their ids. */
export function compile(loom: Loom): Circuit {
  return compileResolved(resolve(loom));
}

function compileResolved(loom: ResolvedLoom): Circuit {
  const draft = emptyDraft(new Set(loom.wires.flatMap((w) => [terminalText(w.from), terminalText(w.to)])));
  putWorld(loom, draft);
  const find = (id: string) => {
    const index = draft.inputs.findIndex((i) => i.id === id);
    const input = draft.inputs[index];
    return input === undefined ? undefined : { index, input };
  };
  const engines: EngineLatches[] = [];
  const context: Context = {
    systemVolts: loom.systemVolts,
    mover: (id) => {
      const world = loom.world.find((w) => w.moves.includes(id));
      return world === undefined ? undefined : find(world.id);
    },
    inputNamed: find,
    engineNamed: (id) => (id === undefined ? engines[0] : engines.find((e) => e.id === id)),
    addEngine: (engine) => void engines.push(engine),
    isCharged: loom.parts.some((p) => p.family === "alternator"),
  };
  // Engines come first: others ask whether one turns. Modules come last: their logic may name any switch.
  const turn = (part: Part) => (part.family === "engine" ? 0 : part.family === "module" ? 2 : 1);
  for (const part of loom.parts.toSorted((a, b) => turn(a) - turn(b))) putPart(part, draft, context);
  for (const wire of loom.wires) {
    const owner = new Door(draft, { id: wire.id, label: "", family: "wire", harm: "none" });
    owner.wire({
      id: wire.id,
      from: terminalText(wire.from),
      to: terminalText(wire.to),
      says: "wire",
      ohms: wire.ohms,
    });
  }
  const wires = loom.wires.map((w) => ({
    id: w.id,
    element: draft.wireElement.get(w.id) ?? -1,
    lengthM: w.lengthM,
    isLengthAssumed: w.lengthAssumed,
    areaMm2: w.areaMm2,
    isSleeved: w.cover === "sleeved",
    ratedAmps: w.rated,
    unfusedBecause: w.unfusedBecause,
  }));
  const reference = loom.reference ?? firstBattery(loom);
  return {
    ...draft,
    latches: slowedBeside(draft).map((l) => withLoads(l, draft.loads)),
    wires,
    reference: reference === undefined ? 0 : nodeAt(draft, terminalText(reference)),
    never: loom.never.map((set) => neverSet(set, draft.inputs)).filter((set) => set.length > 0),
    systemVolts: loom.systemVolts,
    fixedSupply: loom.supply === "fixed",
    openEnds: openEnds(loom),
    intents: intentionsOf(loom, draft),
    sealClaims: sealClaimsOf(loom, draft),
  };
}

/** A part is on if any of its loads is; its coils count only where it has nothing else. */
function withLoads(latch: Latch, loads: readonly Load[]): Latch {
  const { drive } = latch;
  if (drive.kind !== "loads") return latch;
  const own = loads.flatMap((l, i) => (l.part === drive.part ? [i] : []));
  const work = own.filter((i) => loads[i]?.judge.kind !== "latch");
  return { ...latch, drive: { ...drive, loads: work.length > 0 ? work : own } };
}

const firstBattery = (loom: ResolvedLoom) => {
  const battery = loom.parts.find((p) => p.family === "battery");
  return battery === undefined ? undefined : { part: battery.id, terminal: "-" };
};

function putWorld(loom: ResolvedLoom, draft: Draft): void {
  for (const w of loom.world) {
    draft.inputs.push({
      id: w.id,
      kind: "world",
      label: w.label,
      stands: w.values,
      positions: w.values.length,
      usual: Math.max(0, w.values.indexOf(w.usual)),
      moves: freely(w.values.length),
      module: undefined,
      heededBy: undefined,
      isKey: false,
    });
  }
}

function putPart(part: Part, draft: Draft, context: Context): void {
  const door = new Door(draft, part);
  for (const t of part.terminals) door.node(door.terminal(t.name));
  const put = circuits[part.family] as (p: PartWith<FamilyId>, d: Door, c: Context) => void;
  put(part, door, context);
  const own = part.terminals.find((t) => t.needs === "wire or case");
  if (part.caseAt !== undefined && own !== undefined)
    door.conductor({
      from: door.terminal(own.name),
      to: `${part.caseAt}/metal`,
      says: "case",
      ohms: Math.max(CASE_OHMS, LEAST_OHMS),
    });
}

function neverSet(set: Readonly<Record<string, string>>, inputs: readonly Input[]) {
  const list = Object.entries(set).map(([id, value]) => {
    const input = inputs.findIndex((i) => i.id === id);
    return { input, stand: inputs[input]?.stands.indexOf(value) ?? -1 };
  });
  // A condition that names what is not there can never come true.
  return list.every((l) => l.input >= 0 && l.stand >= 0) ? list : [];
}

function openEnds(loom: ResolvedLoom): readonly OpenEnd[] {
  const wires = new Map<string, number>();
  for (const wire of loom.wires)
    for (const end of [wire.from, wire.to]) wires.set(terminalText(end), (wires.get(terminalText(end)) ?? 0) + 1);
  return loom.parts.flatMap((part): OpenEnd[] => {
    if (part.family === "splice" && (wires.get(`${part.id}.1`) ?? 0) === 1)
      return [{ part: part.id, terminal: `${part.id}.1`, family: part.family, says: "joint", kind: "joint of one" }];
    return part.terminals
      .filter((t) => !wires.has(`${part.id}.${t.name}`))
      .filter((t) => t.needs === "wire" || (t.needs === "wire or case" && part.caseAt === undefined))
      .map((t) => ({
        part: part.id,
        terminal: `${part.id}.${t.name}`,
        family: part.family,
        says: t.says,
        kind: "not wired" as const,
      }));
  });
}
