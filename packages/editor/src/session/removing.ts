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
    return { says: `${id} deleted`, make: (l) => removeWireAndTalk(l, id).loom, tells: sentence(id, [], also) };
  }
  const { gone, also } = removePartAndWires(loom, id);
  const wires = gone.map((g) => g.wire);
  return {
    says: wires.length === 0 ? `${id} deleted` : `${id} deleted with ${listed(wires)}`,
    make: (l) => removePartAndWires(l, id).loom,
    tells: sentence(id, wires, also),
  };
}

function sentence(id: string, wires: readonly string[], also: readonly string[]): string {
  const rest = [...wires, ...also];
  return rest.length === 0 ? `${id} is deleted.` : `${id} is deleted, and with it ${listed(rest, 8)}.`;
}
