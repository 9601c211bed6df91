import type { ModuleDefinitionText } from "../module-definition.ts";

/**
 * A controller that never was, with what most of them have. What cannot be seen from outside stays "unknown", so that the
 * findings say what must be measured. Every number is invented.
 */
export const injectionController: ModuleDefinitionText = {
  id: "@injection-controller",
  family: "module",
  kind: "controller",
  title: "Injection controller",
  from: { kind: "invented", text: "a start for your own: put in the pins and values of yours" },
  rails: [{ id: "inside", fedBy: "1", through: "none", draw: "0.2 A" }],
  pins: [
    { pin: "1", name: "supply", kind: "supply", rated: "5 A" },
    { pin: "2", name: "ground", kind: "ground", rated: "10 A" },
    { pin: "3", name: "key wake", kind: "input", wants: "battery", bias: { down: "10 kohm" }, wakes: true },
    { pin: "4", name: "sensor 5 V", kind: "supply-out", rated: "0.1 A", volts: "5 V" },
    { pin: "5", name: "sensor ground", kind: "sensor-ground" },
    { pin: "6", name: "temperature", kind: "input", wants: "ground", bias: { up: "2.2 kohm", to: "4" } },
    { pin: "7", name: "throttle", kind: "input", wants: "battery", bias: { down: "100 kohm" } },
    { pin: "8", name: "crank", kind: "input", wants: "ground", bias: { up: "2.2 kohm", to: "4" } },
    { pin: "9", name: "main relay", kind: "low-side", rated: "1 A", clamp: "unknown" },
    { pin: "10", name: "pump relay", kind: "low-side", rated: "1 A", clamp: "unknown" },
    { pin: "11", name: "injector 1", kind: "low-side", rated: "3 A", clamp: "unknown" },
    { pin: "12", name: "injector 2", kind: "low-side", rated: "3 A", clamp: "unknown" },
    { pin: "13", name: "idle valve", kind: "high-side", rated: "2 A", clamp: "unknown" },
  ],
  logic: { awake: [{ pin: { "3": "active" } }] },
};
