import type { Loom } from "../loom/schema.ts";
import { sketch } from "../loom/sketch.ts";

/** A small loom in which everything that can name a part, a pin or a wire does. */
export const namedLoom: Loom = {
  ...sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": { rated: "10 A" },
      "S1 switch": { stops: { open: ["K1"] } },
      "K1 relay make": {},
      "E1 lamp": { label: "Lamp", case: "XE1" },
      "XE1 ground-point": {},
      "A1 module": { of: "box" },
      "ENG engine": { crankedBy: "M1", needs: ["K1"] },
      "M1 motor starter": {},
      "G2 alternator": { turnedBy: "ENG" },
    },
    wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 K1.86", "K1.85 A1.3", "F1.b K1.30", "K1.87 E1.a", "XE1 G1.-"],
    definitions: [
      {
        id: "box",
        family: "module",
        rails: [{ id: "inside", fedBy: "1" }],
        pins: [
          { pin: "1", kind: "supply" },
          { pin: "2", kind: "ground" },
          { pin: "3", kind: "low-side", clamp: { kind: "diode", to: "4" } },
          { pin: "4", name: "wake", kind: "input" },
          { pin: "5", kind: "low-side" },
        ],
        logic: { awake: [{ pin: { "4": "active" } }, { input: { S1: "closed" } }], on: { "3": [{ awake: true }] } },
      },
    ],
  }),
  world: [
    { id: "cold", values: ["no", "yes"], usual: "no", moves: ["S1"] },
    { id: "both", never: { S1: "closed", "A1.5": "on" } },
  ],
  intents: [
    { id: "lit", load: "E1", onOnlyWhen: [{ S1: "closed" }] },
    { id: "apart", load: "M1", neverWith: ["E1"] },
    { id: "pulls", load: "K1", onWhen: [{ S1: "closed", "A1.5": "off" }] },
  ],
  meant: [{ id: "seal", "seal-in": "K1", through: ["30", "87"] }],
  accepted: [{ finding: "open-end:K1.87", reason: "spare" }],
  remarks: [{ id: "r1", on: { wire: "W3" }, by: "helper", text: "Which size?" }],
  drawing: { places: { K1: { at: [1, 1] } }, routes: { W3: [[0, 0]] } },
};
