import { type Loom, sketch } from "@loomproof/netlist";
import fc from "fast-check";

// Looms thrown together from what makes a history: relays, switches, lamps, diodes and a controller with unknown logic.
// Nobody would build them; every one is a circuit all the same.

const FEEDS = ["F1.b", "F2.b"] as const;
const GROUND = "G1.-";

interface Piece {
  readonly parts: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  /** Terminals, each to be wired to a net. */
  readonly terminals: readonly string[];
}

const relay = (id: string, kind: "make" | "changeover"): Piece => ({
  parts: { [`${id} relay ${kind}`]: {} },
  terminals: [`${id}.86`, `${id}.85`, `${id}.30`, `${id}.87`, ...(kind === "changeover" ? [`${id}.87a`] : [])],
});

const simple = (id: string, family: string, ends: readonly [string, string], values = {}): Piece => ({
  parts: { [`${id} ${family}`]: values },
  terminals: ends.map((t) => `${id}.${t}`),
});

const controller = {
  id: "box",
  family: "module",
  rails: [
    {
      id: "inside",
      fedBy: "1",
      draw: [
        ["0 V", "0 A"],
        ["5 V", "0.2 A"],
        ["16 V", "0.2 A"],
      ],
    },
  ],
  pins: [
    { pin: "1", kind: "supply" },
    { pin: "2", kind: "ground" },
    { pin: "3", kind: "low-side", clamp: { kind: "diode", to: "inside" } },
    { pin: "4", kind: "low-side", clamp: { kind: "zener", volts: "42 V" } },
  ],
};

/** Ends that mostly look to the feed, and those that mostly look to ground; the rest goes anywhere. */
const UPPER = new Set(["86", "30", "1", "a", "A"]);
const LOWER = new Set(["85", "b", "K"]);

/** Nets: two fused feeds, ground, and joints between parts. */
function netFor(terminal: string, joints: number) {
  const name = terminal.slice(terminal.indexOf(".") + 1);
  const [feed, ground] = UPPER.has(name) ? [5, 1] : LOWER.has(name) ? [1, 6] : [1, 1];
  return fc.oneof(
    { weight: feed, arbitrary: fc.constantFrom(...FEEDS) },
    { weight: ground, arbitrary: fc.constant(GROUND) },
    { weight: 6, arbitrary: fc.integer({ min: 1, max: joints }).map((n) => `X${n}`) },
  );
}

/** Any such loom; its searches stay small enough to be walked whole. */
export const anyLoom: fc.Arbitrary<Loom> = fc
  .record({
    relays: fc.array(fc.constantFrom("make" as const, "changeover" as const), { minLength: 1, maxLength: 3 }),
    switches: fc.integer({ min: 1, max: 4 }),
    lamps: fc.integer({ min: 1, max: 4 }),
    diodes: fc.integer({ min: 0, max: 2 }),
    boxed: fc.boolean(),
    joints: fc.integer({ min: 4, max: 8 }),
  })
  .chain(({ relays, switches, lamps, diodes, boxed, joints }) => {
    const ids = (count: number) => Array.from({ length: count }, (_, i) => i + 1);
    const pieces = [
      ...relays.map((kind, i) => relay(`K${i + 1}`, kind)),
      ...ids(switches).map((i) => simple(`S${i}`, "switch", ["1", "2"])),
      ...ids(lamps).map((i) => simple(`E${i}`, i === 1 ? "lamp indicator" : "lamp filament", ["a", "b"])),
      ...ids(diodes).map((i) => simple(`V${i}`, "diode", ["A", "K"])),
      ...(boxed ? [{ parts: { "A1 module": { of: "box" } }, terminals: ["A1.1", "A1.3", "A1.4"] }] : []),
    ];
    const terminals = pieces.flatMap((p) => p.terminals);
    return fc.tuple(...terminals.map((t) => netFor(t, joints))).map((nets) =>
      sketch({
        definitions: boxed ? [controller] : [],
        parts: {
          "G1 battery": {},
          "F1 protector": {},
          "F2 protector": {},
          ...Object.fromEntries(ids(joints).map((i) => [`X${i} splice`, {}])),
          ...Object.assign({}, ...pieces.map((p) => p.parts)),
        },
        wires: [
          "G1.+ F1.a",
          "G1.+ F2.a",
          ...(boxed ? [`A1.2 ${GROUND}`] : []),
          ...terminals.map((t, i) => `${t} ${nets[i]}`),
        ],
      }),
    );
  });
