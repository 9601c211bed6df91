import { type Loom, sketch } from "@loomproof/netlist";

/** K1 drops with the switch; its rest contact holds K2 if K2 is still in by then. Invented. */
export const behindRestContact = (k2Release: string | readonly string[], restContact = "K1.87a K2.86"): Loom =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {
        joins: {
          off: [],
          on: [
            ["1", "2"],
            ["1", "3"],
          ],
        },
      },
      "K1 relay changeover": { release: "2 V", operate: "7 V", releaseTime: "5 ms", operateTime: "3 ms" },
      "K2 relay make": { release: "2 V", operate: "7 V", releaseTime: k2Release, operateTime: "3 ms" },
      "E1 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "S1.3 K2.86",
      "K2.85 G1.-",
      "F1.b K2.30",
      "K2.87 K1.30",
      "K2.87 E1.a",
      "E1.b G1.-",
      restContact,
    ],
  });
