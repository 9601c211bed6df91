import { foundText, type Path, pathText, type Trouble } from "./problem.ts";
import { valueAt } from "./schema-walk.ts";

// How a place in a loom is called when speaking to a person: `"coil" of K1`, `"low" of pin 3 of marigold-controller`.

const NAMES = ["id", "pin", "finding"] as const;

function nameOf(value: unknown): string | undefined {
  for (const key of NAMES) {
    const name = valueAt(value, [key]);
    if (typeof name === "string" && name !== "" && name.length <= 60) return key === "pin" ? `pin ${name}` : name;
  }
  return undefined;
}

/** What stands at a path, in words. The whole file is "the file". */
export function placeWords(root: unknown, path: Path): string {
  const owners: string[] = [];
  let from = 0;
  for (let length = 1; length <= path.length; length++) {
    if (typeof path[length - 1] !== "number") continue;
    const name = nameOf(valueAt(root, path.slice(0, length)));
    if (name === undefined) continue;
    owners.unshift(name);
    from = length;
  }
  const rest = path.slice(from);
  const own =
    rest.length === 0 ? [] : rest.length === 1 && typeof rest[0] === "string" ? [`"${rest[0]}"`] : [pathText(rest)];
  return [...own, ...owners].join(" of ") || "the file";
}

export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** A trouble in the usual sentence: what stands there and what it must be. `more` is a sentence of its own. */
export function mustBe(root: unknown, path: Path, expected: string, more = ""): Trouble {
  const value = valueAt(root, path);
  const found = foundText(value);
  return {
    path,
    of: "value",
    found,
    expected,
    says: `${capital(placeWords(root, path))} is ${found}; it must be ${expected}.${more}`,
  };
}
