import { type Pencil, pictureOf, type Scene } from "@loomproof/drawing";
import { newLoom, newPart, type ResolvedLoom, resolve, type ShelfItem, terminalText } from "@loomproof/netlist";
import type { Picked } from "../session/editing.ts";
import type { PageTheme } from "./drawing.tsx";
import { type Hand, moveOf, type Spot } from "./hand.ts";

/** Terminals further from the pointer than this do not ask for a wire, px of the sheet. */
const NEAR = 260;

/** What a hand does and what is picked, as pencil on the sheet. */
export function pencilOf(
  hand: Hand,
  picked: Picked | undefined,
  scene: Scene,
  loom: ResolvedLoom,
  theme: PageTheme,
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
      return hand.to === undefined ? {} : { carried: { ...pictured(hand.item, theme), at: hand.to } };
    default:
      return hand satisfies never;
  }
}

/** "K1.86 coil": the numbers on the sheet are left out when it is seen from afar. */
function labelOf(loom: ResolvedLoom, id: string, at: Spot) {
  const [part, ...rest] = id.split(".");
  const terminal = loom.parts.find((p) => p.id === part)?.terminals.find((t) => t.name === rest.join("."));
  return { at, text: terminal === undefined ? id : `${id} ${terminal.says}` };
}

/** Straight lines for the wires of a part that is being moved. */
function tiesOf(scene: Scene, loom: ResolvedLoom, part: string, dx: number, dy: number) {
  const spots = new Map(scene.dots.map((d) => [d.id.includes(".") ? d.id : `${d.id.split(" ")[0]}.1`, d.at]));
  return loom.wires.flatMap(({ from, to }) => {
    const [own, far] = from.part === part ? [from, to] : [to, from];
    const [a, b] = [spots.get(terminalText(own)), spots.get(terminalText(far))];
    if (own.part !== part || far.part === part || a === undefined || b === undefined) return [];
    return [{ from: { x: a.x + dx, y: a.y + dy }, to: b }];
  });
}

function pictured({ family, kind, definition }: ShelfItem, theme: PageTheme) {
  const { loom, id } = newPart(newLoom(), family, kind, definition);
  const part = resolve(loom).parts.find((p) => p.id === id);
  if (part === undefined) throw new Error(`the shelf gave no ${family}`);
  return pictureOf(part, theme);
}
