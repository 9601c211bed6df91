// The controller of the invented truck: what its outputs wait for is not known. All numbers are invented.

export const CONTROLLER_ID = "invented-truck-controller";

const MOST_OUTPUTS = 16;
/** Small looms have fewer outputs: 16 from here on. */
const PARTS_FOR_ALL = 250;

export const outputsFor = (parts: number): number =>
  Math.min(MOST_OUTPUTS, Math.max(2, Math.round((MOST_OUTPUTS * parts) / PARTS_FOR_ALL)));

/** Pins 3 and up are low-side outputs: of each four, three have a diode to the supply inside, one a zener. */
export const controllerOf = (outputs: number): Readonly<Record<string, unknown>> => ({
  id: CONTROLLER_ID,
  family: "module",
  kind: "controller",
  title: "Controller of an invented truck",
  from: { kind: "invented", text: "for the measuring of speed" },
  rails: [
    {
      id: "inside",
      fedBy: "1",
      draw: [
        ["0 V", "0 A"],
        ["5 V", "0.1 A"],
        ["16 V", "0.1 A"],
      ],
      wakesAt: "6.5 V",
      resetsAt: "5 V",
    },
  ],
  pins: [
    { pin: "1", kind: "supply" },
    { pin: "2", kind: "ground" },
    ...Array.from({ length: outputs }, (_, i) => ({
      pin: `${i + 3}`,
      kind: "low-side",
      clamp: i % 4 === 3 ? { kind: "zener", volts: "42 V" } : { kind: "diode", to: "inside" },
    })),
  ],
});
