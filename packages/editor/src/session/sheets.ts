import { drawingOf, layout, type Placed } from "@loomproof/drawing";
import { type DrawingText, type Loom, type ResolvedLoom, resolve } from "@loomproof/netlist";
import type { Drawn } from "./session.ts";

/** The layouts of the looms of one page. */
export interface Sheets {
  /** The drawing of a loom that came without one, from the worker; it stands for all looms until the next. */
  readonly take: (drawn: Drawn | undefined) => void;
  /** The layout of a loom; undefined as long as it has no drawing. */
  readonly placedOf: (loom: Loom, resolved: ResolvedLoom) => Placed | undefined;
  /** Gives an edited loom its drawing: what stood stays, what is new finds a place. */
  readonly finish: (before: Loom, after: Loom) => Loom;
}

export function sheetsOf(): Sheets {
  let first: (Drawn & { readonly drawing: DrawingText }) | undefined;
  const known = new WeakMap<Loom, Placed>();
  const drawingFor = (loom: Loom): DrawingText | undefined =>
    loom.drawing ?? first?.drawing ?? (loom.parts.length === 0 ? {} : undefined);
  return {
    take: (drawn) => {
      if (drawn?.placed === first?.placed) return;
      first = drawn && { ...drawn, drawing: drawingOf(drawn.placed) };
      if (drawn !== undefined) known.set(drawn.loom, drawn.placed);
    },
    placedOf: (loom, resolved) => {
      const drawing = drawingFor(loom);
      if (drawing === undefined) return undefined;
      const placed = known.get(loom) ?? layout(resolved, { drawing });
      known.set(loom, placed);
      return placed;
    },
    finish: (before, after) => {
      const drawing = after.drawing ?? drawingFor(before);
      // Not drawn yet: the worker will draw it as it is then.
      if (drawing === undefined) return after;
      const placed = layout(resolve(after), { drawing });
      const finished = { ...after, drawing: drawingOf(placed) };
      known.set(finished, placed);
      return finished;
    },
  };
}
