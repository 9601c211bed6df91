import type { PartWith } from "@loomproof/netlist";
import { circle, line, path, type Stroke, text } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

const EXTRA: Readonly<Record<string, readonly Stroke[]>> = {
  pump: [path("line", "M4.75 2.4H5.6V3.6H4.75"), path("solid", "M5.6 2.55L6.2 3L5.6 3.45Z")],
  fan: [path("line", "M4.8 3C4.8 1.6 6 1.4 6 2.3C6 2.8 5.4 3 4.8 3C4.8 4.4 6 4.6 6 3.7C6 3.2 5.4 3 4.8 3")],
};

export const motor = (part: PartWith<"motor">, potential: Potential): PartSymbol =>
  column(
    ["+", "-"],
    3,
    6,
    ({ isOn }) => [
      circle(isOn ? "lit" : "body", 3, 3, 1.8),
      line("line", 3, 0, 3, 1.2),
      line("line", 3, 4.8, 3, 6),
      text(3, 3.42, "M", 12, "middle", true),
      ...(isOn ? [path("line", "M1.3 1.3A2.4 2.4 0 0 1 4.7 1.3"), path("solid", "M5.1 1.85L4.25 1.5L4.95 .95Z")] : []),
      ...(EXTRA[part.kind] ?? []),
    ],
    potential,
    { right: part.kind === "motor" || part.kind === "starter" ? 0 : 0.3 },
  );
