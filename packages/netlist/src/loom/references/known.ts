import { families } from "../../parts/families.ts";
import type { ModuleDefinitionText } from "../../parts/module-definition.ts";
import type { Pair } from "../../parts/positions.ts";
import { standardJoins } from "../../parts/switch.ts";
import { nearest } from "../nearest.ts";
import { orList, type Path, quoted, type Trouble } from "../problem.ts";
import type { PartText } from "../schema.ts";
import type { Shape } from "../shape.ts";
import { readTerminal } from "../terminal-ref.ts";
import { terminalsOf, valuesOf } from "../terminals.ts";
import { mustBe } from "../words.ts";

/**
 * What the items of a file can name. A name whose item was refused maps to undefined: it is there, but nothing more can
 * be said about it, and whoever names it is left in peace.
 */
export interface Known {
  readonly root: unknown;
  readonly definitions: ReadonlyMap<string, ModuleDefinitionText | undefined>;
  readonly parts: ReadonlyMap<string, KnownPart | undefined>;
  /** World inputs and switches with their values, in order. */
  readonly inputs: ReadonlyMap<string, readonly string[] | undefined>;
  /** " Did you mean ...?", or nothing. */
  readonly meant: (text: string, words: Iterable<string>) => string;
}

export interface KnownPart {
  readonly text: PartText;
  /** In SI, by field. */
  readonly values: Readonly<Record<string, unknown>>;
  /** Undefined when they hang on a definition that is not known. */
  readonly terminals: readonly string[] | undefined;
}

/** What the world may do with an engine: let it run or not. */
const ENGINE_VALUES = ["stopped", "running"] as const;
const FALLBACK_VOLTS = 12;
/** Looking for the nearest of thousands of names takes time; past so many problems nobody reads the hint. */
const MOST_HINTS = 100;
const MOST_COMPARED = 3000;

export function knownOf({ root, items, system }: Shape): Known {
  const definitions = new Map(
    items.definitions.flatMap(({ id, item }) => (id === undefined ? [] : [[id, item] as const])),
  );
  const volts = system?.volts ?? FALLBACK_VOLTS;
  const parts = new Map(
    items.parts.flatMap(({ id, item }) =>
      id === undefined ? [] : [[id, item === undefined ? undefined : knownPart(item, volts, definitions)] as const],
    ),
  );
  const inputs = new Map<string, readonly string[] | undefined>();
  for (const { id, item } of items.world)
    if (id !== undefined && !(item !== undefined && "never" in item)) inputs.set(id, item?.values);
  for (const [id, part] of parts) {
    if (part === undefined) inputs.set(id, undefined);
    else if (isSwitch(part.text)) inputs.set(id, positionsOf(part));
    else if (part.text.is === "engine") inputs.set(id, ENGINE_VALUES);
  }
  return { root, definitions, parts, inputs, meant: hints() };
}

function knownPart(text: PartText, volts: number, definitions: Known["definitions"]): KnownPart {
  const { values } = valuesOf(text, volts);
  const definition = text.of === undefined ? undefined : definitions.get(text.of);
  const open = text.is === "module" && definition === undefined;
  return { text, values, terminals: open ? undefined : terminalsOf(text, values, definition).map((t) => t.name) };
}

function hints(): Known["meant"] {
  let left = MOST_HINTS;
  return (text, words) => {
    if (left-- <= 0) return "";
    const near = nearest(text, [...words].slice(0, MOST_COMPARED));
    return near === undefined ? "" : ` Did you mean ${quoted(near)}?`;
  };
}

export const isSwitch = (part: PartText): boolean => part.is === "switch" || part.is === "key-switch";

/** Pairs joined in each position of a switch: as given, else by kind. */
export function joinsOf({ text, values }: KnownPart): Readonly<Record<string, readonly Pair[]>> {
  const given = values.joins as Readonly<Record<string, readonly Pair[]>> | undefined;
  return given ?? standardJoins(text.kind ?? families[text.is].kinds[0]);
}

export const positionsOf = (part: KnownPart): readonly string[] =>
  (part.values.positions as readonly string[] | undefined) ?? Object.keys(joinsOf(part));

/** A trouble when `name` is none of `names`. `things` says what they are, such as "a pin of this definition". */
export function mustName(known: Known, path: Path, name: string, names: Iterable<string>, things: string): Trouble[] {
  const list = names instanceof Map || names instanceof Set ? names : new Set(names);
  if (list.has(name)) return [];
  const words = [...list.keys()] as readonly string[];
  const few = words.length > 0 && words.length <= 12 ? ` (${words.join(", ")})` : "";
  return [mustBe(known.root, path, `${things}${few}`, known.meant(name, words))];
}

/** Like `mustName`, for a name that is the key at the end of the path. */
export function keyMustName(known: Known, path: Path, names: Iterable<string>, things: string): Trouble[] {
  const name = String(path[path.length - 1]);
  const list = [...names];
  if (list.includes(name)) return [];
  const expected = list.length > 0 && list.length <= 12 ? `${things} (${list.join(", ")})` : things;
  return [
    {
      path,
      of: "key",
      found: quoted(name),
      expected,
      says: `${quoted(name)} must be ${expected}.${known.meant(name, list)}`,
    },
  ];
}

/** A trouble when `text` is no terminal of a part of the loom. */
export function mustBeTerminal(known: Known, path: Path, text: string): Trouble[] {
  const { part, terminal } = readTerminal(text);
  if (!known.parts.has(part))
    return [
      mustBe(known.root, path, "a terminal of a part that is in the loom", known.meant(part, known.parts.keys())),
    ];
  const terminals = known.parts.get(part)?.terminals;
  if (terminals === undefined || terminals.includes(terminal)) return [];
  const most = 12;
  const named = terminals.slice(0, most).map((t) => `${part}.${t}`);
  const expected = `one of the terminals of ${part}: ${terminals.length > most ? `${named.join(", ")} …` : orList(named)}`;
  return [mustBe(known.root, path, expected, known.meant(terminal, terminals))];
}
