import { type FamilyId, families, familyIds, type Terminal } from "@loomproof/netlist";

interface ShownField {
  readonly read: (raw: unknown, context: { readonly systemVolts: number }) => unknown;
  readonly says: string;
  readonly standard: string;
  readonly source: string;
}

/** A family seen from outside, whatever its values are. */
interface ShownFamily {
  readonly title: string;
  readonly summary: string;
  readonly kinds: readonly string[];
  readonly fields: Readonly<Record<string, ShownField>>;
  readonly terminals: (values: never, kind: string) => readonly Terminal[];
}

const shown = (id: FamilyId): ShownFamily => families[id];

/** One line a family. */
export function familiesText(): string {
  const width = Math.max(...familyIds.map((id) => id.length)) + 2;
  return [
    ...familyIds.map((id) => `${id.padEnd(width)}${shown(id).summary}`),
    "",
    "loomproof parts FAMILY shows its kinds, terminals and values.",
  ].join("\n");
}

/** Kinds with their terminals, then every value with what it says, what is taken if it is not given, and why. */
export function familyText(id: FamilyId): string {
  const family = shown(id);
  const fields = Object.entries(family.fields);
  const values = Object.fromEntries(fields.map(([name, f]) => [name, f.read(undefined, { systemVolts: 12 })]));
  const terminals = family.kinds.map(
    (kind) => [kind, family.terminals(values as never, kind).map((t) => t.name)] as const,
  );
  const kindWidth = Math.max(...family.kinds.map((k) => k.length)) + 2;
  const nameWidth = Math.max(0, ...fields.map(([name]) => name.length)) + 2;
  return [
    `${family.title} ("is": "${id}")`,
    family.summary,
    "",
    "kinds and their terminals (the first kind is taken if none is given)",
    ...terminals.map(([kind, names]) => `  ${kind.padEnd(kindWidth)}${names.join("  ") || "as its pin table says"}`),
    ...(fields.length > 0 ? ["", "values"] : []),
    ...fields.flatMap(([name, f]) => [
      `  ${name.padEnd(nameWidth)}${f.says}`,
      `  ${" ".repeat(nameWidth)}not given: ${f.standard}${f.standard === "none" ? "" : ` (${f.source})`}`,
    ]),
  ].join("\n");
}
