import { type Loom, removePartAndWires, removeWireAndTalk } from "@loomproof/netlist";
import { listed } from "../panels/words.ts";
import type { Picked } from "./editing.ts";

/** Taking something away: the name of the step, the edit, and a sentence for the person of what goes with it. */
export interface Removal {
  readonly says: string;
  readonly make: (loom: Loom) => Loom;
  readonly tells: string;
}

export function removalOf(loom: Loom, { kind, id }: Picked): Removal {
  if (kind === "wire") {
    const { also } = removeWireAndTalk(loom, id);
    const wire = loom.wires.find((w) => w.id === id);
    const ends = wire === undefined ? "" : `, from ${wire.from} to ${wire.to},`;
    return { says: `${id} deleted`, make: (l) => removeWireAndTalk(l, id).loom, tells: sentence(`${id}${ends}`, also) };
  }
  const { gone, also } = removePartAndWires(loom, id);
  const wires = gone.map((g) => g.wire);
  // Where each of its wires still hangs in the vehicle.
  const ends = gone.map(({ wire, farEnd }) => `${wire} to ${farEnd}`);
  return {
    says: wires.length === 0 ? `${id} deleted` : `${id} deleted with ${listed(wires)}`,
    make: (l) => removePartAndWires(l, id).loom,
    tells: sentence(id, [...ends, ...also]),
  };
}

const sentence = (what: string, rest: readonly string[]): string =>
  rest.length === 0 ? `${what} is deleted.` : `${what} is deleted, and with it ${listed(rest, 8)}.`;
