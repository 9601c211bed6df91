import { drawingOf, layout, type Placed } from "@loomproof/drawing";
import { type DrawingText, type Loom, type ResolvedLoom, resolve } from "@loomproof/netlist";

/** The layouts of the looms of one page. */
export interface Sheets {
  /** The drawing of a loom that came without one, from the worker; it stands for all looms until the next. */
  readonly take: (placed: Placed | undefined) => void;
  /** The layout of a loom; undefined as long as it has no drawing. */
  readonly placedOf: (loom: Loom, resolved: ResolvedLoom) => Placed | undefined;
  /** Gives an edited loom its drawing: what stood stays, what is new finds a place. */
  readonly finish: (before: Loom, after: Loom) => Loom;
}

export function sheetsOf(): Sheets {
  let first: { readonly placed: Placed; readonly drawing: DrawingText } | undefined;
  const known = new WeakMap<Loom, Placed>();
  const drawingFor = (loom: Loom): DrawingText | undefined =>
    loom.drawing ?? first?.drawing ?? (loom.parts.length === 0 ? {} : undefined);
  const drawn = (loom: Loom, resolved: ResolvedLoom, drawing: DrawingText): Placed => {
    const placed = known.get(loom) ?? layout(resolved, { drawing });
    known.set(loom, placed);
    return placed;
  };
  return {
    take: (placed) => {
      if (placed !== first?.placed) first = placed && { placed, drawing: drawingOf(placed) };
    },
    placedOf: (loom, resolved) => {
      const drawing = drawingFor(loom);
      return drawing && drawn(loom, resolved, drawing);
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
