import { type Path, quoted, type Trouble } from "../problem.ts";
import { mustBe } from "../words.ts";
import { joinsOf, type Known, type KnownPart, keyMustName, mustName, positionsOf } from "./known.ts";

/** What a switch says of its positions: each is in `joins`, springs back to another, and is passed beside its neighbour. */
export function* switchTroubles(known: Known, path: Path, part: KnownPart): Generator<Trouble> {
  const joins = joinsOf(part);
  const positions = positionsOf(part);
  const own = `a position of ${part.text.id}`;
  for (const [i, position] of positions.entries()) {
    const at = [...path, "positions", i];
    if (positions.indexOf(position) < i) yield mustBe(known.root, at, "a position that is not named before");
    else yield* mustName(known, at, position, Object.keys(joins), `a position that "joins" lists`);
  }
  for (const [position, pairs] of Object.entries(joins)) {
    const at = [...path, "joins", position];
    if (positions !== undefined && part.text.joins !== undefined) yield* keyMustName(known, at, positions, own);
    for (const [i, [a, b]] of pairs.entries())
      if (a === b) yield mustBe(known.root, [...at, i], "two terminals that differ");
  }
  yield* returnsTroubles(known, [...path, "returns"], part, positions);
  yield* stopsTroubles(known, [...path, "stops"], part, positions);
  yield* betweenTroubles(known, [...path, "between"], part, positions);
}

/** `{"empty": ["M1"]}`: positions of the switch, and parts that are there. */
function* stopsTroubles(
  known: Known,
  path: Path,
  { text, values }: KnownPart,
  positions: readonly string[],
): Generator<Trouble> {
  const stops = (values.stops ?? {}) as Readonly<Record<string, readonly string[]>>;
  for (const [position, parts] of Object.entries(stops)) {
    yield* keyMustName(known, [...path, position], positions, `a position of ${text.id}`);
    for (const [i, id] of parts.entries())
      yield* mustName(known, [...path, position, i], id, known.parts.keys(), "a part of this loom");
  }
}

function* returnsTroubles(
  known: Known,
  path: Path,
  { text, values }: KnownPart,
  positions: readonly string[],
): Generator<Trouble> {
  const returns = new Map(Object.entries(values.returns as Readonly<Record<string, string>>));
  const own = `a position of ${text.id}`;
  for (const [from, to] of returns) {
    yield* keyMustName(known, [...path, from], positions, own);
    yield* mustName(known, [...path, from], to, positions, own);
    if (rests(returns, from)) continue;
    yield mustBe(known.root, [...path, from], "a position where the switch can rest; these spring back in a ring");
  }
}

/** Does springing back end somewhere? */
function rests(returns: ReadonlyMap<string, string>, from: string): boolean {
  let at: string | undefined = from;
  for (let steps = 0; at !== undefined && steps <= returns.size; steps++) at = returns.get(at);
  return at === undefined;
}

function* betweenTroubles(
  known: Known,
  path: Path,
  { values }: KnownPart,
  positions: readonly string[],
): Generator<Trouble> {
  const neighbours = positions.slice(1).flatMap((next, i) => [`${positions[i]}>${next}`, `${next}>${positions[i]}`]);
  const expected = `two neighbouring positions with ">" between (${neighbours
    .filter((_, i) => i % 2 === 0)
    .map(quoted)
    .join(", ")})`;
  for (const key of Object.keys(values.between as Readonly<Record<string, string>>))
    if (!neighbours.includes(key))
      yield {
        path: [...path, key],
        of: "key",
        found: quoted(key),
        expected,
        says: `${quoted(key)} must be ${expected}.${known.meant(key, neighbours)}`,
      };
}
