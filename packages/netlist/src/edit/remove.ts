import type { Loom, PartText } from "../loom/schema.ts";
import { anyAsks, withConditions, withoutAsking } from "./conditions.ts";
import { withoutDrawn } from "./drawn.ts";
import { type Forgot, forget, type IsIt } from "./forget.ts";
import { removeWire } from "./wires.ts";

/** What went with a part. `farEnd` is where a wire still ends, `also` says the rest: "the wish pump". */
interface Removed {
  readonly loom: Loom;
  readonly gone: readonly { readonly wire: string; readonly farEnd: string }[];
  readonly also: readonly string[];
}

/**
 * Takes a part away with its wires and with everything that names it: wishes, accepted findings and remarks about it,
 * what the world moves, logic that asks it, its place. What only lists it among others stays without it. Tell the person
 * all of it.
 */
export function removePartAndWires(loom: Loom, id: string): Removed {
  const isIt = (name: string) => name === id || name.startsWith(`${id}.`);
  const gone = loom.wires
    .filter((w) => isIt(w.from) || isIt(w.to))
    .map((w) => ({ wire: w.id, farEnd: isIt(w.from) ? w.to : w.from }));
  const wires = gone.map((g) => g.wire);
  const parts = withoutPart(wires.reduce(removeWire, loom), id, isIt);
  const logic = withoutLogic(parts.loom, isIt);
  const rest = forget(logic.loom, isIt, wires);
  return {
    loom: withoutDrawn(rest.loom, { places: [id], routes: wires }),
    gone,
    also: [...parts.also, ...logic.also, ...rest.also],
  };
}

/** Takes a wire away, with accepted findings and remarks about it and its route. */
export function removeWireAndTalk(loom: Loom, id: string): Forgot {
  const { loom: left, also } = forget(removeWire(loom, id), () => false, [id]);
  return { loom: withoutDrawn(left, { routes: [id] }), also };
}

/** The part itself, what other parts say of it, its definition if nothing else is made after it. */
function withoutPart(loom: Loom, id: string, isIt: IsIt): Forgot {
  const also: string[] = [];
  const of = loom.parts.find((p) => p.id === id)?.of;
  const parts = loom.parts.filter((p) => p.id !== id).map((p) => forgetting(p, isIt, also));
  const isLast = of !== undefined && !parts.some((p) => p.of === of);
  if (isLast) also.push(`the definition ${of}, which nothing else uses`);
  const definitions = isLast ? loom.definitions.filter((d) => d.id !== of) : loom.definitions;
  const { reference, ...system } = loom.system;
  const isReference = reference !== undefined && isIt(reference);
  if (isReference) also.push("the reference of all volts");
  return { loom: { ...loom, parts, definitions, system: isReference ? system : loom.system }, also };
}

/** A part that no longer names what is gone. */
function forgetting(part: PartText, isIt: IsIt, also: string[]): PartText {
  const { crankedBy, turnedBy, needs, stops, ...rest } = part as PartText & {
    readonly crankedBy?: string;
    readonly turnedBy?: string;
    readonly needs?: readonly string[];
    readonly stops?: Readonly<Record<string, readonly string[]>>;
  };
  const names = [part.case, crankedBy, turnedBy, ...(needs ?? []), ...Object.values(stops ?? {}).flat()];
  if (!names.some((n) => n !== undefined && isIt(n))) return part;
  const { case: sits, ...left } = rest;
  const stopped = Object.entries(stops ?? {}).map(([at, ids]) => [at, ids.filter((n) => !isIt(n))] as const);
  also.push(`what ${part.id} says of it`);
  return {
    ...left,
    ...(sits !== undefined && !isIt(sits) ? { case: sits } : {}),
    ...(crankedBy !== undefined && !isIt(crankedBy) ? { crankedBy } : {}),
    ...(turnedBy !== undefined && !isIt(turnedBy) ? { turnedBy } : {}),
    ...(needs === undefined ? {} : { needs: needs.filter((n) => !isIt(n)) }),
    // A position that stops nothing says so: without the entry the catalogue's would hold.
    ...(stops === undefined ? {} : { stops: Object.fromEntries(stopped) }),
  } as PartText;
}

/** Logic of modules that asks it. */
function withoutLogic(loom: Loom, isIt: IsIt): Forgot {
  const asks = (atoms: { readonly input?: Readonly<Record<string, string>> | undefined }) =>
    Object.keys(atoms.input ?? {}).some(isIt);
  const also: string[] = [];
  const definitions = loom.definitions.map((d) => {
    if (!anyAsks(d, asks)) return d;
    also.push(`logic of ${d.id} that asks it`);
    return withConditions(d, (condition) => withoutAsking(condition, asks));
  });
  return { loom: { ...loom, definitions }, also };
}
