import { COIL_CELSIUS } from "@loomproof/netlist";
import type { Circuit } from "../circuit/circuit.ts";
import { type Patch, USUAL } from "../circuit/patch.ts";

/** One whole search with the parameters at one corner. */
export interface Run {
  readonly id: string;
  readonly corner: "usual" | "weak" | "strong";
  /** Unknown pins taken as present, by tag. */
  readonly present: readonly string[];
  readonly patch: Patch;
}

const CORNERS: readonly { readonly corner: Run["corner"]; readonly patch: Patch }[] = [
  { corner: "usual", patch: USUAL },
  { corner: "weak", patch: { ...USUAL, supply: "least", coilCelsius: COIL_CELSIUS.hot, draw: "most" } },
  { corner: "strong", patch: { ...USUAL, supply: "most", coilCelsius: COIL_CELSIUS.cold, draw: "least" } },
];

/**
 * The runs of a loom: usual (both ends of the draw), weak, strong; each with all unknown pins absent, each alone
 * present, and all present. Unknown pins and corners do not multiply with each other; mixed corners are not tried.
 */
export function runsOf(circuit: Circuit): readonly Run[] {
  const tags = [...new Set(circuit.unknowns.map((u) => u.tag))];
  const unknown = [[], ...tags.map((t) => [t]), ...(tags.length > 1 ? [tags] : [])];
  return unknown.flatMap((present) =>
    cornersOf(circuit).map(({ corner, patch }) => runOf(corner, { ...patch, present })),
  );
}

function cornersOf(circuit: Circuit): readonly { readonly corner: Run["corner"]; readonly patch: Patch }[] {
  const spread = circuit.elements.some((e) => e.curve !== undefined && e.curve.least !== e.curve.most);
  const usual = CORNERS.filter((c) => c.corner === "usual");
  const both = spread
    ? [...usual, ...usual.map((c) => ({ ...c, patch: { ...c.patch, draw: "least" as const } }))]
    : usual;
  // A bench comparison: point values, no ranges.
  return circuit.fixedSupply ? both : [...both, ...CORNERS.filter((c) => c.corner !== "usual")];
}

const runOf = (corner: Run["corner"], patch: Patch): Run => ({
  id: [
    corner,
    ...(corner === "usual" && patch.draw === "least" ? ["least draw"] : []),
    ...patch.present.map((t) => `with ${t}`),
  ].join(", "),
  corner,
  present: patch.present,
  patch,
});
