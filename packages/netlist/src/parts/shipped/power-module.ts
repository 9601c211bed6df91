import type { ModuleDefinitionText } from "../module-definition.ts";

/** A solid-state power module that never was: four channels, each switched by its own input. Every number is invented. */
export const powerModule: ModuleDefinitionText = {
  id: "@power-module",
  family: "module",
  kind: "power-module",
  title: "Solid-state power module",
  from: { kind: "invented", text: "a start for your own: put in the channels and values of yours" },
  rails: [{ id: "inside", fedBy: "1", through: "diode", draw: "0.005 A" }],
  pins: [
    { pin: "1", name: "supply", kind: "supply", rated: "60 A" },
    { pin: "2", name: "ground", kind: "ground" },
    { pin: "3", name: "input 1", kind: "input", wants: "battery", bias: { down: "10 kohm" } },
    { pin: "4", name: "input 2", kind: "input", wants: "battery", bias: { down: "10 kohm" } },
    { pin: "5", name: "input 3", kind: "input", wants: "battery", bias: { down: "10 kohm" } },
    { pin: "6", name: "input 4", kind: "input", wants: "battery", bias: { down: "10 kohm" } },
    { pin: "7", name: "channel 1", kind: "high-side", rated: "15 A", clamp: "unknown", feed: "1" },
    { pin: "8", name: "channel 2", kind: "high-side", rated: "15 A", clamp: "unknown", feed: "1" },
    { pin: "9", name: "channel 3", kind: "high-side", rated: "15 A", clamp: "unknown", feed: "1" },
    { pin: "10", name: "channel 4", kind: "high-side", rated: "15 A", clamp: "unknown", feed: "1" },
  ],
  logic: {
    on: {
      "7": [{ pin: { "3": "active" } }],
      "8": [{ pin: { "4": "active" } }],
      "9": [{ pin: { "5": "active" } }],
      "10": [{ pin: { "6": "active" } }],
    },
  },
};
