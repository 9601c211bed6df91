import type { EnginePhase, PartWith } from "@loomproof/netlist";
import { type Latch, type Literal, type LiteralSet, type Logic, whileOff, whileOn } from "./circuit.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { freely } from "./positions.ts";

/** An engine as latches: cranked by its starter, running, and turning (which includes spinning down). */
export interface EngineLatches {
  readonly id: string;
  readonly cranked: number | undefined;
  readonly running: number;
  readonly turning: number;
}

/**
 * The engine is a part: the world may let it catch while it is cranked; it then runs until the world stops it or a part
 * that it needs is not on. With nothing that cranks it, it starts by the will of the world.
 */
export function engine(part: PartWith<"engine">, door: Door, context: Context): void {
  const { crankedBy, needs, spinDown, byHand } = part.values;
  const isFree = crankedBy === undefined || byHand === "yes";
  const isOn = (name: string, id: string, says: Latch["says"]): number =>
    door.latch({ id: `${part.id}/${name}`, kind: "state", drive: { kind: "loads", part: id, loads: [] }, says });
  const cranked =
    crankedBy === undefined ? undefined : isOn("cranked", crankedBy, { on: "is cranked", off: "is no longer cranked" });
  const needed = needs.map((id) => isOn(`has ${id}`, id, { on: "", off: "" }));
  // It keeps itself running, so its logic names itself.
  const running = door.nextLatch();
  const input = door.input({
    id: part.id,
    kind: "world",
    stands: ["stopped", "running"],
    positions: 2,
    usual: 0,
    moves: freely(2),
    module: undefined,
    heededBy: isFree || cranked === undefined ? undefined : [cranked, running],
    isKey: false,
  });
  const catches: Literal = { kind: "input", input, stands: [false, true] };
  const able: LiteralSet[] = [{ negated: false, literals: [catches] }, ...needed.map(whileOn)];
  const logic: Logic =
    isFree || cranked === undefined
      ? [able]
      : [
          [whileOn(cranked), ...able],
          [whileOn(running), ...able],
        ];
  door.latch({
    id: `${part.id}/running`,
    kind: "state",
    drive: { kind: "logic", logic },
    says: { on: "runs", off: "stops running" },
    kept: true,
  });
  door.works(running, needs);
  const turning = door.latch({
    id: `${part.id}/turning`,
    kind: "state",
    drive: { kind: "logic", logic: [[whileOn(running)], ...(cranked === undefined ? [] : [[whileOn(cranked)]])] },
    offTime: spinDown,
    says: { on: "turns", off: "stands still" },
    kept: true,
  });
  context.addEngine({ id: part.id, cranked, running, turning });
}

/** When the engine is in this phase. */
export function phaseLogic(phase: EnginePhase, { cranked, running, turning }: EngineLatches): Logic {
  switch (phase) {
    case "stopped":
      return [[whileOff(turning)]];
    case "cranking":
      return cranked === undefined ? [] : [[whileOn(cranked), whileOff(running)]];
    case "running":
      return [[whileOn(running)]];
    case "spinning down":
      return [[whileOn(turning), whileOff(running), ...(cranked === undefined ? [] : [whileOff(cranked)])]];
    default:
      return phase satisfies never;
  }
}
