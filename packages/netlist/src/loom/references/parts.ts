import { families } from "../../parts/families.ts";
import { type Contact, contactsOf, type Suppression, type Winding } from "../../parts/relay.ts";
import { orList, type Path, quoted, type Trouble } from "../problem.ts";
import type { Loom } from "../schema.ts";
import type { FoundItems } from "../shape.ts";
import { readTerminal } from "../terminal-ref.ts";
import { mustBe } from "../words.ts";
import { isSwitch, type Known, type KnownPart, keyMustName, mustBeTerminal, mustName } from "./known.ts";
import { switchTroubles } from "./switches.ts";

/** What parts name: definitions, ground points, their own terminals and positions. Also the reference of the system. */
export function* partTroubles(known: Known, items: FoundItems, system: Loom["system"] | undefined): Generator<Trouble> {
  if (system?.reference !== undefined) yield* mustBeTerminal(known, ["system", "reference"], system.reference);
  for (const { at, id } of items.parts) {
    const part = id === undefined ? undefined : known.parts.get(id);
    if (part !== undefined) yield* onePart(known, ["parts", at], part);
  }
}

function* onePart(known: Known, path: Path, part: KnownPart): Generator<Trouble> {
  const { text } = part;
  if (text.of !== undefined)
    yield* mustName(known, [...path, "of"], text.of, known.definitions.keys(), "a definition of this file");
  if (text.case !== undefined) yield* caseTroubles(known, [...path, "case"], text.case);
  if (text.is === "relay") yield* relayTroubles(known, path, part);
  if (isSwitch(text)) yield* switchTroubles(known, path, part);
  if (text.is === "engine") yield* engineTroubles(known, path, part);
  if (text.is === "alternator" && part.values.turnedBy !== undefined)
    yield* mustName(known, [...path, "turnedBy"], part.values.turnedBy as string, idsOf(known, "engine"), "an engine");
  if (text.is === "motor") yield* emfTroubles(known, [...path, "emf"], part);
}

function* caseTroubles(known: Known, path: Path, text: string): Generator<Trouble> {
  const points = [...known.parts].filter(([, p]) => p?.text.is === "ground-point").map(([id]) => id);
  const { part } = readTerminal(text);
  if (known.parts.has(part) && known.parts.get(part) === undefined) return;
  if (points.includes(part)) yield* mustBeTerminal(known, path, text);
  else yield mustBe(known.root, path, "a ground point of this loom", known.meant(part, points));
}

function* relayTroubles(known: Known, path: Path, { text, values, terminals = [] }: KnownPart): Generator<Trouble> {
  for (const [i, { between }] of (values.windings as readonly Winding[]).entries())
    if (between[0] === between[1])
      yield mustBe(known.root, [...path, "windings", i, "between"], "two terminals that differ");
  const contacts = contactsOf(values.contacts as readonly Contact[] | undefined, text.kind ?? families.relay.kinds[0]);
  for (const [i, contact] of contacts.entries()) {
    const named = [contact.common, contact.make, contact.break].filter((t) => t !== undefined);
    const at = [...path, "contacts", i];
    if (named.length < 2) yield mustBe(known.root, at, `a contact with "make", "break" or both beside its "common"`);
    else if (new Set(named).size < named.length) yield mustBe(known.root, at, "a contact whose terminals differ");
  }
  const suppression = values.suppression as Suppression;
  if (suppression.kind === "diode" || suppression.kind === "zener")
    yield* diodeTroubles(known, [...path, "suppression", "diode"], suppression, terminals);
  const series = values.seriesDiode as { readonly anode: string; readonly cathode: string } | undefined;
  if (series !== undefined) yield* diodeTroubles(known, [...path, "seriesDiode"], series, terminals);
}

function* diodeTroubles(
  known: Known,
  path: Path,
  { anode, cathode }: { readonly anode: string; readonly cathode: string },
  terminals: readonly string[],
): Generator<Trouble> {
  const strange = [anode, cathode].find((t) => !terminals.includes(t));
  const own = orList(terminals);
  if (strange !== undefined)
    yield mustBe(
      known.root,
      path,
      `two terminals of this relay (${own}) with ">" between, and ${quoted(strange)} is none`,
      known.meant(strange, terminals),
    );
  else if (anode === cathode) yield mustBe(known.root, path, "two terminals that differ");
}

const idsOf = (known: Known, family: string): readonly string[] =>
  [...known.parts].filter(([, p]) => p?.text.is === family).map(([id]) => id);

function* engineTroubles(known: Known, path: Path, { values }: KnownPart): Generator<Trouble> {
  const { crankedBy, needs } = values as { readonly crankedBy?: string; readonly needs: readonly string[] };
  if (crankedBy !== undefined) yield* mustName(known, [...path, "crankedBy"], crankedBy, known.parts.keys(), "a part");
  for (const [i, id] of needs.entries())
    yield* mustName(known, [...path, "needs", i], id, known.parts.keys(), "a part of this loom");
}

function* emfTroubles(known: Known, path: Path, { values }: KnownPart): Generator<Trouble> {
  const emf = values.emf as { readonly input: string; readonly volts: Readonly<Record<string, number>> } | undefined;
  if (emf === undefined) return;
  const world = [...known.inputs.keys()].filter((id) => !known.parts.has(id));
  yield* mustName(known, [...path, "input"], emf.input, world, "an input of the world");
  const can = known.inputs.get(emf.input);
  if (can !== undefined && world.includes(emf.input))
    for (const value of Object.keys(emf.volts))
      yield* keyMustName(known, [...path, "volts", value], can, `a value of ${emf.input}`);
}
