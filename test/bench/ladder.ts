import { type Loom, sketch } from "@loomproof/netlist";

/** An invented loom that grows: circuits of a switch, a fuse, a relay and two lamps on one feed rail. About 14 nodes each. */
export function ladder(circuits: number): Loom {
  const parts: Record<string, Record<string, unknown>> = {
    "G1 battery": {},
    "F0 protector": { rated: "60 A" },
    "X1 splice": {},
    "X2 splice": {},
  };
  const wires = ["G1.+ F0.a", "F0.b X1.1", "G1.- X2.1"];
  for (let i = 1; i <= circuits; i++) {
    Object.assign(parts, {
      [`F${i} protector`]: {},
      [`S${i} switch`]: {},
      [`K${i} relay make`]: { operate: "7 V", release: "2 V" },
      [`E${i} lamp`]: {},
      [`H${i} heater`]: {},
    });
    wires.push(
      `X1.1 F${i}.a`,
      `F${i}.b S${i}.1`,
      `S${i}.2 K${i}.86`,
      `K${i}.85 X2.1`,
      `F${i}.b K${i}.30`,
      `K${i}.87 E${i}.a`,
      `E${i}.b X2.1`,
      `K${i}.87 H${i}.a`,
      `H${i}.b X2.1`,
    );
  }
  return sketch({ parts, wires });
}
