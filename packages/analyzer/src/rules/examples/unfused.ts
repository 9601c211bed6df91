import { type Loom, sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const lamp = { "G1 battery": {}, "F1 protector": {}, "S1 switch": {}, "E1 lamp filament": {} };

/** The same loom with one wire of another length or size. */
const withWire = (loom: Loom, id: string, values: Readonly<Record<string, string>>): Loom => ({
  ...loom,
  wires: loom.wires.map((w) => (w.id === id ? { ...w, ...values } : w)),
});

const lateFuse = () => sketch({ parts: lamp, wires: ["G1.+ S1.1", "S1.2 F1.a", "F1.b E1.a", "E1.b G1.-"] });
const earlyFuse = () => sketch({ parts: lamp, wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 E1.a", "E1.b G1.-"] });

export const unfusedExamples = (): readonly RuleExample[] => [
  { title: "the fuse sits at the far end", loom: lateFuse(), expects: ["danger certain unfused:W1"] },
  {
    title: "the fuse sits at the battery",
    loom: withWire(earlyFuse(), "W1", { length: "0.15 m" }),
    expects: ["note certain unfused:tails"],
  },
  {
    title: "a starter cable",
    loom: withWire(
      sketch({
        parts: { "G1 battery": {}, "S1 switch": {}, "M1 motor starter": {} },
        wires: ["G1.+ S1.1", "S1.2 M1.+", "M1.- G1.-"],
      }),
      "W1",
      { size: "35 mm2" },
    ),
    expects: ["note certain unfused:W1"],
  },
  {
    title: "the size is not given: taken as 1 mm²",
    loom: { ...lateFuse(), wires: lateFuse().wires.map(({ size: _, ...w }) => w) },
    expects: ["danger certain unfused:W1"],
  },
];
