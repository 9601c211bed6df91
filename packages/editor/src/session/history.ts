import { apply, applyAll, type Change, change, invert, type Loom } from "@loomproof/netlist";

/** One edit: what it was, in words, and what it changed. Plain data. */
export interface Step {
  readonly says: string;
  readonly change: Change;
}

/** A loom with the steps that led to it and those that were taken back. Immutable. */
export interface History {
  readonly loom: Loom;
  /** Oldest first. */
  readonly past: readonly Step[];
  /** What Redo makes next comes first. */
  readonly future: readonly Step[];
}

export const begun = (loom: Loom): History => ({ loom, past: [], future: [] });

/** Every step there is, done or taken back, in the order in which they were made. */
export const stepsOf = ({ past, future }: History): readonly Step[] => [...past, ...future];

/** How many steps two histories have in common, from the first. */
export function sharedSteps(a: readonly Step[], b: readonly Step[]): number {
  const differs = a.findIndex((step, i) => step !== b[i]);
  return differs < 0 ? a.length : differs;
}

/** After an edit. What was taken back is gone. An edit that changes nothing makes no step. */
export function edited(history: History, says: string, after: Loom): History {
  const made = change(history.loom, after);
  if (Object.keys(made).length === 0) return history;
  return { loom: after, past: [...history.past, { says, change: made }], future: [] };
}

/** One step back; the same history if there is none. */
export function undone(history: History): History {
  const step = history.past.at(-1);
  if (step === undefined) return history;
  return {
    loom: moved(history.loom, invert(step.change), step.says),
    past: history.past.slice(0, -1),
    future: [step, ...history.future],
  };
}

/** One step forth; the same history if there is none. */
export function redone(history: History): History {
  const [step, ...future] = history.future;
  if (step === undefined) return history;
  return { loom: moved(history.loom, step.change, step.says), past: [...history.past, step], future };
}

/** The history of a loom and its steps, with the first `position` of them made. Undefined if they do not fit together. */
export function replayed(base: Loom, steps: readonly Step[], position: number): History | undefined {
  const past = steps.slice(0, position);
  const made = applyAll(
    base,
    past.map((s) => s.change),
  );
  return made.ok ? { loom: made.loom, past, future: steps.slice(position) } : undefined;
}

function moved(loom: Loom, by: Change, says: string): Loom {
  const made = apply(loom, by);
  if (!made.ok) throw new Error(`the step "${says}" does not fit the loom: ${made.stale.join(", ")}`);
  return made.loom;
}
