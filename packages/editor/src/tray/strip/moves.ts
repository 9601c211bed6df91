import type { Choice, Finding } from "@loomproof/analyzer";
import type { ResolvedLoom } from "@loomproof/netlist";

/**
 * The story of a finding in the words of a script: each move when nothing moves any more, or in the midst of the time in
 * which the hand turned straight on. Empty if it has none.
 */
export const storyMoves = (finding: Finding | undefined): string =>
  (finding?.moves ?? [])
    .flatMap(({ set, straightOn }) => [
      Object.entries(set)
        // Time that passes and power coming on are no moves of an input.
        .flatMap(([input, stand]) => (stand === "" ? [] : [`${input}=${stand}`]))
        .join(" "),
      straightOn === undefined ? "" : `+${midst(straightOn)}ms ${straightOn.input}=${straightOn.position}`,
    ])
    .filter((move) => move !== "")
    .join(", ");

const midst = ({ least, most }: { readonly least: number; readonly most: number }): number =>
  Number(((least + most) / 2).toFixed(1));

/** What could be typed for this loom. */
export function exampleMoves(loom: ResolvedLoom): string {
  const key = loom.parts.find((p) => p.family === "key-switch");
  if (key?.family !== "key-switch") {
    const made = loom.parts.find((p) => p.family === "switch");
    return made === undefined ? "S1=closed, 200ms S1=open" : `${made.id}=closed, 200ms ${made.id}=open`;
  }
  const positions = key.values.positions ?? Object.keys(key.values.joins);
  return `${key.id}=${positions.at(-2) ?? positions[0]}, 200ms ${key.id}=${positions[0]}`;
}

/** Which of the admissible times of relays, hands and modules are taken, in words. */
export const TIME_WORDS: { readonly [C in Choice]: string } = {
  usual: "typical",
  slowest: "slowest",
  fastest: "quickest",
};
