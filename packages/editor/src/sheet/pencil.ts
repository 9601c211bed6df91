import { type Pencil, type Picture, type Scene, terminalOf } from "@loomproof/drawing";
import { type ResolvedLoom, readTerminal, terminalText } from "@loomproof/netlist";
import type { Picked } from "../session/editing.ts";
import { type Hand, moveOf, type Spot } from "./hand.ts";

/** Terminals further from the pointer than this do not ask for a wire, px of the sheet. */
const NEAR = 260;

/**
 * What a hand does and what is picked, as pencil on the sheet.
 *
 * @param carried the picture of what it carries
 */
export function pencilOf(
  hand: Hand,
  picked: Picked | undefined,
  scene: Scene,
  loom: ResolvedLoom,
  carried: Picture | undefined,
): Pencil {
  const own = picked === undefined ? [] : [picked.id];
  switch (hand.kind) {
    case "free":
    case "pressed": {
      const hit = hand.kind === "free" ? hand.over : hand.hit;
      return {
        picked: own,
        ...(hit?.kind === "terminal" ? { open: [hit.at], label: labelOf(loom, hit.id, hit.at) } : {}),
      };
    }
    case "moving": {
      const { dx, dy } = moveOf(hand);
      return { moving: { box: hand.box, dx, dy }, lines: tiesOf(scene, loom, hand.part, dx, dy) };
    }
    case "wiring": {
      const { over, from, to } = hand;
      const at = over !== undefined && over.kind !== "part" ? over.at : to;
      const isNear = (s: Spot) => Math.hypot(s.x - to.x, s.y - to.y) < NEAR;
      return {
        picked: over?.kind === "part" ? [over.id] : [],
        lines: [{ from: from.at, to: at }],
        open: scene.dots.map((d) => d.at).filter(isNear),
        ...(over?.kind === "wire" ? { dot: over.at } : {}),
        ...(over?.kind === "terminal" ? { label: labelOf(loom, over.id, over.at) } : {}),
      };
    }
    case "carrying":
      return hand.to === undefined || carried === undefined ? {} : { carried: { ...carried, at: hand.to } };
    default:
      return hand satisfies never;
  }
}

/** "K1.86 coil": the numbers on the sheet are left out when it is seen from afar. */
function labelOf(loom: ResolvedLoom, id: string, at: Spot) {
  const { part, terminal } = readTerminal(id);
  const says = loom.parts.find((p) => p.id === part)?.terminals.find((t) => t.name === terminal)?.says;
  return { at, text: says === undefined ? id : `${id} ${says}` };
}

/** Straight lines for the wires of a part that is being moved. */
function tiesOf(scene: Scene, loom: ResolvedLoom, part: string, dx: number, dy: number) {
  const spots = new Map(scene.dots.map((d) => [terminalOf(d.id), d.at]));
  return loom.wires.flatMap(({ from, to }) => {
    const [own, far] = from.part === part ? [from, to] : [to, from];
    const [a, b] = [spots.get(terminalText(own)), spots.get(terminalText(far))];
    if (own.part !== part || far.part === part || a === undefined || b === undefined) return [];
    return [{ from: { x: a.x + dx, y: a.y + dy }, to: b }];
  });
}
