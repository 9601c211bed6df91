import type { Loom } from "../loom/schema.ts";
import { isFree } from "./designation.ts";
import { drawingWithPart, drawingWithWire } from "./drawing-names.ts";
import { keyed } from "./keyed.ts";

/** Gives a part another designation, and rewrites everything that names it. Nothing else may have the new one. */
export function renamePart(loom: Loom, from: string, to: string): Loom {
  if (!isFree(loom, to)) throw new Error(`renamePart: ${to} is there already`);
  return renamed(
    loom,
    (name) => (name === from ? to : name),
    (text) => (text === from || text.startsWith(`${from}.`) ? to + text.slice(from.length) : text),
  );
}

/** Every name of a part through `id`, every name of a part or of its terminal through `terminal`. */
export function renamed(loom: Loom, id: (name: string) => string, terminal: (text: string) => string): Loom {
  const keys = <T>(record: Readonly<Record<string, T>>) => keyed(record, terminal);
  return {
    ...loom,
    system:
      loom.system.reference === undefined
        ? loom.system
        : { ...loom.system, reference: terminal(loom.system.reference) },
    definitions: loom.definitions.map((d) => withInputs(d, keys) as typeof d),
    parts: loom.parts.map((p) => ({
      ...p,
      id: id(p.id),
      ...(p.case === undefined ? {} : { case: terminal(p.case) }),
      ...namesOf(p, id),
    })),
    wires: loom.wires.map((w) => ({ ...w, from: terminal(w.from), to: terminal(w.to) })),
    world: loom.world.map((w) => {
      if ("never" in w) return { ...w, never: keys(w.never) };
      return w.moves === undefined ? w : { ...w, moves: w.moves.map(id) };
    }),
    intents: loom.intents.map((i) => ({
      ...i,
      ...(i.load === undefined ? {} : { load: id(i.load) }),
      ...(i.battery === undefined ? {} : { battery: id(i.battery) }),
      ...(i.onOnlyWhen === undefined ? {} : { onOnlyWhen: i.onOnlyWhen.map(keys) }),
      ...(i.onWhen === undefined ? {} : { onWhen: i.onWhen.map(keys) }),
      ...(i.after === undefined ? {} : { after: keys(i.after) }),
      ...(i.when === undefined ? {} : { when: i.when.map(keys) }),
      ...(i.neverWith === undefined ? {} : { neverWith: i.neverWith.map(id) }),
    })),
    meant: loom.meant.map((m) => ({
      ...m,
      "seal-in": id(m["seal-in"]),
      ...(m.set === undefined ? {} : { set: m.set.map(keys) }),
      ...(m.clear === undefined ? {} : { clear: m.clear.map(keys) }),
    })),
    ...renamedTalk(loom, terminal),
    ...(loom.drawing === undefined ? {} : { drawing: drawingWithPart(loom.drawing, id, terminal) }),
  };
}

/** Gives a wire another number, and rewrites what names it. Nothing else may have the new one. */
export function renameWire(loom: Loom, from: string, to: string): Loom {
  if (!isFree(loom, to)) throw new Error(`renameWire: ${to} is there already`);
  const name = (id: string) => (id === from ? to : id);
  return {
    ...loom,
    wires: loom.wires.map((w) => (w.id === from ? { ...w, id: to } : w)),
    ...renamedTalk(loom, name),
    ...(loom.drawing === undefined ? {} : { drawing: drawingWithWire(loom.drawing, name) }),
  };
}

/** Accepted findings and remarks with what they are about renamed. */
const renamedTalk = (loom: Loom, name: (text: string) => string): Pick<Loom, "accepted" | "remarks"> => ({
  accepted: loom.accepted.map((a) => ({ ...a, finding: renamedFinding(a.finding, name) })),
  remarks: loom.remarks.map((r) => ({
    ...r,
    on: Object.fromEntries(Object.entries(r.on).map(([k, v]) => [k, name(v)])),
  })),
});

/** Engines, alternators and switches that guard name other parts. */
function namesOf(part: Loom["parts"][number], id: (name: string) => string): Record<string, unknown> {
  const { crankedBy, turnedBy, needs, stops } = part as Readonly<Record<string, unknown>>;
  return {
    ...(typeof crankedBy === "string" ? { crankedBy: id(crankedBy) } : {}),
    ...(typeof turnedBy === "string" ? { turnedBy: id(turnedBy) } : {}),
    ...(typeof stops === "object" && stops !== null
      ? { stops: Object.fromEntries(Object.entries(stops).map(([at, ids]) => [at, (ids as string[]).map(id)])) }
      : {}),
    ...(Array.isArray(needs) ? { needs: needs.map((n) => id(String(n))) } : {}),
  };
}

/** Conditions of modules may name switches under `input`. */
function withInputs(
  value: unknown,
  keys: (record: Readonly<Record<string, unknown>>) => Record<string, unknown>,
): unknown {
  if (Array.isArray(value)) return value.map((v) => withInputs(v, keys));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([k, v]) => [
      k,
      k === "input" && typeof v === "object" && v !== null ? keys(v as Record<string, unknown>) : withInputs(v, keys),
    ]),
  );
}

/** `self-hold:K3+K4`: the subjects behind the colon. */
function renamedFinding(finding: string, terminal: (text: string) => string): string {
  const colon = finding.indexOf(":");
  const subjects = finding
    .slice(colon + 1)
    .split("+")
    .map(terminal);
  return `${finding.slice(0, colon + 1)}${subjects.join("+")}`;
}
