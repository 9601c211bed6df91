import { asWritten, connect, whyNotConnect } from "../edit/connect.ts";
import { newPart } from "../edit/new-part.ts";
import { setValue } from "../edit/parts.ts";
import { addPin, removePin, renamePin, setDefinition, setPin, setRail } from "../edit/pins.ts";
import { removePartAndWires, removeWireAndTalk } from "../edit/remove.ts";
import { renamePart, renameWire } from "../edit/rename.ts";
import { spliceInto, whyNotSplice } from "../edit/splice.ts";
import { moveWireEnd, setWireValue } from "../edit/wires.ts";
import { resolve } from "../loom/resolve.ts";
import type { Loom } from "../loom/schema.ts";
import { families, familyIds } from "../parts/families.ts";
import { shippedDefinitions } from "../parts/shipped/shipped.ts";

// Edits as a person in a hurry makes them: any edit, on anything there is. For tests of undo, of drafts and of the page.

/** Numbers that choose an edit and what it is made on; any whole numbers from 0 on. */
export interface EditPick {
  readonly what: number;
  readonly a: number;
  readonly b: number;
}

export interface RandomEdit {
  /** What kind of edit it is. */
  readonly says: string;
  readonly loom: Loom;
}

type Maker = (loom: Loom, pick: EditPick) => Loom;

const at = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];

const terminals = (loom: Loom): readonly string[] =>
  resolve(loom).parts.flatMap((p) => p.terminals.map((t) => asWritten(loom, `${p.id}.${t.name}`)));

/** A name that nothing has: no designation of a family ends so. */
const freshName = (loom: Loom, letter: string): string => {
  const taken = new Set([loom.parts, loom.wires, loom.world, loom.definitions].flatMap((l) => l.map((i) => i.id)));
  for (let n = 1; ; n++) if (!taken.has(`${letter}${n}_`)) return `${letter}${n}_`;
};

const onPart =
  (make: (loom: Loom, part: Loom["parts"][number], pick: EditPick) => Loom): Maker =>
  (loom, pick) => {
    const part = at(loom.parts, pick.a);
    return part === undefined ? loom : make(loom, part, pick);
  };

const onWire =
  (make: (loom: Loom, wire: Loom["wires"][number], pick: EditPick) => Loom): Maker =>
  (loom, pick) => {
    const wire = at(loom.wires, pick.a);
    return wire === undefined ? loom : make(loom, wire, pick);
  };

const onPin =
  (
    make: (loom: Loom, definition: string, pin: Loom["definitions"][number]["pins"][number], pick: EditPick) => Loom,
  ): Maker =>
  (loom, pick) => {
    const definition = at(loom.definitions, pick.a);
    const pin = at(definition?.pins ?? [], pick.b);
    return definition === undefined || pin === undefined ? loom : make(loom, definition.id, pin, pick);
  };

const MAKERS: Readonly<Record<string, Maker>> = {
  "new part": (loom, { a, b }) => {
    const family = at(
      familyIds.filter((f) => f !== "module"),
      a,
    );
    return family === undefined ? loom : newPart(loom, family, at(families[family].kinds, b)).loom;
  },
  "new module": (loom, { a }) => newPart(loom, "module", undefined, at(shippedDefinitions, a)?.id).loom,
  connect: (loom, { a, b }) => {
    const all = terminals(loom);
    const [from, to] = [at(all, a), at(all, b)];
    if (from === undefined || to === undefined || whyNotConnect(loom, from, to) !== undefined) return loom;
    return connect(loom, from, to).loom;
  },
  splice: onWire((loom, wire, { b }) => {
    const terminal = at(terminals(loom), b);
    if (terminal === undefined || whyNotSplice(loom, wire.id, terminal) !== undefined) return loom;
    return spliceInto(loom, wire.id, terminal).loom;
  }),
  "remove part": onPart((loom, part) => removePartAndWires(loom, part.id).loom),
  "remove wire": onWire((loom, wire) => removeWireAndTalk(loom, wire.id).loom),
  "rename part": onPart((loom, part) => renamePart(loom, part.id, freshName(loom, "N"))),
  "rename wire": onWire((loom, wire) => renameWire(loom, wire.id, freshName(loom, "L"))),
  "move end": onWire((loom, wire, { b }) => {
    const terminal = at(terminals(loom), b);
    if (terminal === undefined || whyNotConnect(loom, wire.from, terminal) !== undefined) return loom;
    return moveWireEnd(loom, wire.id, "to", terminal);
  }),
  label: onPart((loom, part, { b }) => setValue(loom, part.id, "label", b % 3 === 0 ? undefined : `Label ${b}`)),
  harm: onPart((loom, part, { b }) => setValue(loom, part.id, "harm", at([undefined, "move", "fuel"], b))),
  value: onPart((loom, part, { b }) => {
    const quantities = Object.entries(families[part.is].fields).filter(([, f]) => f.unit === "ohms");
    const field = at(quantities, b)?.[0];
    return field === undefined ? loom : setValue(loom, part.id, field, b % 2 === 0 ? undefined : `${b + 1} ohm`);
  }),
  wire: onWire((loom, wire, { b }) => setWireValue(loom, wire.id, "size", at([undefined, "1.5 mm2", "14 AWG"], b))),
  colour: onWire((loom, wire, { b }) => setWireValue(loom, wire.id, "colour", at([undefined, "RD", "BK/YE"], b))),
  pin: onPin((loom, definition, { pin }, { b }) => setPin(loom, definition, pin, "note", `note ${b}`)),
  "new pin": onPin((loom, definition) => addPin(loom, definition).loom),
  "remove pin": onPin((loom, definition, { pin }) => removePin(loom, definition, pin).loom),
  "rename pin": onPin((loom, definition, { pin }, { a }) => {
    const taken = loom.definitions.find((d) => d.id === definition)?.pins.some((p) => p.pin === `p${a}`);
    return taken ? loom : renamePin(loom, definition, pin, `p${a}`);
  }),
  "title of pins": (loom, { a, b }) => {
    const definition = at(loom.definitions, a);
    const title = b % 3 === 0 ? undefined : `Title ${b}`;
    return definition === undefined ? loom : setDefinition(loom, definition.id, "title", title);
  },
  rail: (loom, { a, b }) => {
    const definition = at(loom.definitions, a);
    const rail = at(definition?.rails ?? [], b);
    if (definition === undefined || rail === undefined) return loom;
    return setRail(loom, definition.id, rail.id, "through", at(["none", "diode", "blocking"], b));
  },
};

/** Every edit there is, by name. */
export const RANDOM_EDITS: readonly string[] = Object.keys(MAKERS);

/** One edit of a loom. Where nothing is there to be edited it is the same loom. */
export function randomEdit(loom: Loom, pick: EditPick): RandomEdit {
  const says = at(RANDOM_EDITS, pick.what) ?? "";
  const make = MAKERS[says];
  if (make === undefined) throw new Error(`randomEdit: ${says}`);
  return { says, loom: make(loom, pick) };
}
