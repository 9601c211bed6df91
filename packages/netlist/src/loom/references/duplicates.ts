import { foundText, type Path, type Trouble } from "../problem.ts";
import { type Section, type Shape, sections } from "../shape.ts";
import { capital } from "../words.ts";

// Findings, changes and remarks go by id, so an id must mean one thing. Parts, wires, world inputs and definitions share
// one set of names; the other sections have each their own.

const SHARED: ReadonlySet<Section> = new Set(["definitions", "parts", "wires", "world"]);
const THINGS: { readonly [S in Section]: string } = {
  definitions: "definition",
  parts: "part",
  wires: "wire",
  world: "world item",
  intents: "intent",
  meant: 'item of "meant"',
  accepted: "accepted finding",
  remarks: "remark",
};

/** Says where a path stands: "line 3, column 5". */
export type Where = (path: Path) => string;

/** Every id that was used before, with both places. */
export function* duplicateTroubles({ items }: Pick<Shape, "items">, where: Where): Generator<Trouble> {
  const shared = new Map<string, readonly [string, Path]>();
  for (const section of sections) {
    const seen = SHARED.has(section) ? shared : new Map<string, readonly [string, Path]>();
    for (const { at, id } of items[section]) {
      if (id === undefined) continue;
      const path = [section, at, section === "accepted" ? "finding" : "id"];
      const before = seen.get(id);
      if (before === undefined) seen.set(id, [THINGS[section], path]);
      else {
        const says = `${capital(THINGS[section])} ${foundText(id)} at ${where(path)} has the id of a ${before[0]} at ${where(before[1])}.`;
        yield { path, of: "value", found: `${foundText(id)} again`, expected: "an id that nothing else has", says };
      }
    }
  }
}
