import { boxOf, drawingOf, type Placed, type Scene, turnsOf } from "@loomproof/drawing";
import { type Loom, type ResolvedLoom, readTerminal, type ShelfItem } from "@loomproof/netlist";
import { type KeyboardEvent, useCallback, useEffect, useRef, useState } from "react";
import type { Edit, Picked } from "../session/editing.ts";
import { removalOf } from "../session/removing.ts";
import type { Camera } from "./camera.ts";
import { mirrorBox, moveBox, type OnSheet, place, placeAnywhere, splice, turnBox, wire } from "./deeds.ts";
import type { Deed, Spot } from "./hand.ts";
import { areaOf } from "./marks.ts";

interface Options {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly placed: Placed | undefined;
  readonly scene: Scene | undefined;
  readonly camera: Camera;
  readonly edit: Edit;
  /** Shows the values of what was picked on the sheet. */
  readonly showValues: () => void;
}

/** A wire without its far end yet. */
export interface Choosing {
  readonly from: string;
  readonly part: string;
  /** px of the sheet's frame. */
  readonly at: Spot;
}

/** What is picked, and everything that can be done to it on the sheet. */
export function useBoard({ loom, resolved, placed, scene, camera, edit, showValues }: Options) {
  const [chosen, pick] = useState<Picked>();
  const [choosing, choose] = useState<Choosing>();
  const [said, say] = useState<string>();
  // What is gone, by an edit or by Undo, is not picked any more.
  const isThere =
    chosen !== undefined && (chosen.kind === "part" ? loom.parts : loom.wires).some((i) => i.id === chosen.id);
  const picked = isThere ? chosen : undefined;
  const sheet = useRef<OnSheet | undefined>(undefined);
  useEffect(() => {
    // A loom that was never edited has the worker's drawing, which is not in it yet.
    sheet.current = placed && scene && { loom, placed, drawing: loom.drawing ?? drawingOf(placed), scene, edit };
  }, [loom, placed, scene, edit]);

  const does = useCallback(
    (deed: Deed) => {
      const on = sheet.current;
      if (on === undefined) {
        // Nothing is drawn yet that anything else could be done to.
        if (deed.kind === "place") say(placeAnywhere(edit, deed.item, (id) => pick({ kind: "part", id })));
        return;
      }
      say(undefined);
      switch (deed.kind) {
        case "pick":
          pick(pickedOf(deed.hit));
          if (deed.hit !== undefined) showValues();
          return;
        case "move":
          say(moveBox(on, deed.part, deed.box, deed.dx, deed.dy));
          return;
        case "wire":
          say(wire(on, deed.from, deed.to));
          return;
        case "splice":
          say(splice(on, deed.from, deed.wire, deed.at) ?? `${deed.wire} is two wires now; say how long each is.`);
          return;
        case "place":
          say(place(on, deed.item, deed.at, false, (id) => pick({ kind: "part", id })));
          return;
        case "choose": {
          const terminals = resolved.parts.find((p) => p.id === deed.part)?.terminals ?? [];
          const [only] = terminals;
          const { x, y, scale } = camera.view;
          if (terminals.length === 1 && only !== undefined) say(wire(on, deed.from, `${deed.part}.${only.name}`));
          else choose({ from: deed.from, part: deed.part, at: { x: deed.at.x * scale + x, y: deed.at.y * scale + y } });
          return;
        }
        default:
          deed satisfies never;
      }
    },
    [resolved, camera, edit, showValues],
  );
  /** From the shelf without a spot: in the middle of what is seen. */
  const placeNear = useCallback(
    (item: ShelfItem) => {
      const on = sheet.current;
      const took = (id: string) => pick({ kind: "part", id });
      if (on === undefined) {
        say(placeAnywhere(edit, item, took));
        return;
      }
      const { x, y, scale } = camera.view;
      const { width, height } = camera.frame;
      const middle = { x: (width / 2 - x) / scale, y: (height / 2 - y) / scale };
      say(place(on, item, middle, true, took));
    },
    [camera, edit],
  );
  /** Picked in a list: what is out of sight comes into it. */
  const pickInList = useCallback(
    (what: Picked | undefined) => {
      pick(what);
      const area = what && sheet.current && areaOf(sheet.current.scene, what);
      if (area !== undefined) camera.reveal(area);
    },
    [camera],
  );
  const remove = useCallback(
    (what: Picked) => {
      const removal = removalOf(loom, what);
      say(edit(removal.says, removal.make) ?? removal.tells);
    },
    [loom, edit],
  );
  const box = placed && picked?.kind === "part" ? boxOf(placed, picked.id) : undefined;
  const turns = placed && box !== undefined ? turnsOf(placed, box) : { turns: false, mirrors: false };
  const acting = (act: (on: OnSheet, part: string, box: string) => string | undefined) =>
    picked === undefined || box === undefined
      ? undefined
      : () => {
          if (sheet.current !== undefined) say(act(sheet.current, picked.id, box));
        };
  const acts = {
    turn: turns.turns ? acting(turnBox) : undefined,
    mirror: turns.mirrors ? acting(mirrorBox) : undefined,
    move: (dx: number, dy: number) => acting((on, part, b) => moveBox(on, part, b, dx, dy))?.(),
  };
  /** What a key does to what is picked; false if it is not for that. */
  const keys = (event: KeyboardEvent): boolean => {
    if (picked === undefined || event.ctrlKey || event.metaKey || event.altKey) return false;
    const step = event.shiftKey ? 5 : 1;
    const way = WAYS.get(event.key);
    if (event.key === "Delete" || event.key === "Backspace") remove(picked);
    else if (event.key === "Escape") pick(undefined);
    else if (event.key === "Enter") showValues();
    else if (picked.kind === "part" && way !== undefined) acts.move(way[0] * step, way[1] * step);
    else if (event.key.toLowerCase() === "r" && acts.turn !== undefined) acts.turn();
    else if (event.key.toLowerCase() === "m" && acts.mirror !== undefined) acts.mirror();
    else return false;
    event.preventDefault();
    return true;
  };
  const wireTo = (terminal: string) => {
    if (choosing !== undefined && sheet.current !== undefined) say(wire(sheet.current, choosing.from, terminal));
    choose(undefined);
  };
  return {
    picked,
    pick: pickInList,
    does,
    placeNear,
    remove,
    ...acts,
    keys,
    said,
    choosing,
    wireTo,
    leave: () => choose(undefined),
  };
}

const WAYS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ["ArrowLeft", [-1, 0]],
  ["ArrowRight", [1, 0]],
  ["ArrowUp", [0, -1]],
  ["ArrowDown", [0, 1]],
]);

/** A terminal belongs to its part. */
function pickedOf(hit: Extract<Deed, { kind: "pick" }>["hit"]): Picked | undefined {
  if (hit === undefined) return undefined;
  if (hit.kind === "wire") return { kind: "wire", id: hit.id };
  return { kind: "part", id: hit.kind === "terminal" ? readTerminal(hit.id).part : hit.id };
}
