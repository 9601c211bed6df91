import type { Behaviour, Column } from "@loomproof/analyzer";
import type { ResolvedLoom } from "@loomproof/netlist";

/** Columns with the key in one position. */
export interface ColumnGroup {
  /** The key's position, the how manieth of how many it is; undefined in a loom without a key. */
  readonly key: { readonly says: string; readonly at: number; readonly of: number } | undefined;
  readonly columns: readonly { readonly at: number; readonly says: string }[];
}

/** The first so many situations under the positions of the key, each in the few words that tell it from its neighbours. */
export function groupsOf(loom: ResolvedLoom, { situations }: Behaviour, most: number): readonly ColumnGroup[] {
  const key = keyOf(loom, situations[0]);
  const groups: { stand: string; columns: number[] }[] = [];
  situations.slice(0, most).forEach((s, at) => {
    const stand = key === undefined ? "" : (s.inputs[key.id] ?? "");
    const last = groups.at(-1);
    if (last?.stand === stand) last.columns.push(at);
    else groups.push({ stand, columns: [at] });
  });
  return groups.map(({ stand, columns }) => {
    const says = key === undefined ? "" : `${key.name} ${stand}`;
    const all = situations.flatMap((s) =>
      key === undefined || s.inputs[key.id] === stand ? [shortTitle(s, says)] : [],
    );
    return {
      key: key && { says, at: key.positions.indexOf(stand), of: key.positions.length },
      columns: columns.map((at) => {
        const situation = situations[at] as Column;
        const short = shortTitle(situation, says);
        const isAlone = all.filter((s) => s === short).length === 1;
        return { at, says: isAlone ? short : withoutKey(situation.title, says) };
      }),
    };
  });
}

/** The key of the loom, if its situations hang on one. */
export function keyOf(loom: ResolvedLoom, situation: Column | undefined) {
  const part = loom.parts.find((p) => p.family === "key-switch" && situation?.inputs[p.id] !== undefined);
  if (part?.family !== "key-switch") return undefined;
  const positions = part.values.positions ?? Object.keys(part.values.joins);
  return { id: part.id, name: part.label === "" ? part.id : part.label, positions };
}

/** Without what the cells below show anyway: which relays are still in. */
const shortTitle = ({ title, after, heldIn }: Column, key: string): string =>
  withoutKey(after === undefined || heldIn.length === 0 ? title : title.replace(/: [^:]* still in/, ""), key);

/** What there is beside the key, which stands above it. */
function withoutKey(title: string, key: string): string {
  if (key === "" || !title.startsWith(key)) return title;
  return title.slice(key.length).replace(/^, /, "") || "as usual";
}
