import { gradeOf } from "../behave/grade.ts";
import { rounded, turned } from "../behave/machine.ts";
import { logicIn, YES } from "../behave/scope.ts";
import type { State } from "../behave/state.ts";
import { isCutOff } from "../behave/want.ts";
import type { Drive, Latch, Load } from "../circuit/circuit.ts";
import { middle } from "./choice.ts";
import type { Rig } from "./rig.ts";
import type { Moment, Stage } from "./step.ts";

/** What drives a latch at a moment: pulling amps for armatures, volts for levels, 1 or 0 for logic. */
function driveAt(rig: Rig, closed: Uint8Array, { x, op }: Moment, s: State, drive: Drive): number {
  switch (drive.kind) {
    case "logic":
      return logicIn(drive.logic, s) === YES ? 1 : 0;
    case "volts":
      return rounded(drive.sign * ((op.volts[drive.a] ?? 0) - (op.volts[drive.b] ?? 0)));
    case "amp-turns":
      return turned(drive, (element) => {
        const store = rig.storeOf[element] as number;
        return (store >= 0 ? x[store] : op.amps[element]) ?? 0;
      });
    case "loads":
      return drive.loads.some((l) => gradeOf(rig.circuit, closed, op, s, rig.circuit.loads[l] as Load) === "on")
        ? 1
        : 0;
    default:
      return drive satisfies never;
  }
}

/** Whether a latch would change at this drive. Its thresholds stand in the middle of their spread. */
function wantsChange(latch: Latch, s: State, index: number, drive: number): boolean {
  const isOn = s.latches[index] === 1;
  if (isCutOff(latch, s)) return isOn;
  if (latch.drive.kind === "logic" || latch.drive.kind === "loads") return (drive === 1) !== isOn;
  return isOn ? drive <= rounded(middle(latch.off)) : drive >= rounded(middle(latch.on));
}

/** Latches that would change at a moment. */
export const wantingAt = ({ rig, closed }: Stage, moment: Moment, s: State): readonly number[] =>
  rig.circuit.latches.flatMap((latch, i) =>
    wantsChange(latch, s, i, driveAt(rig, closed, moment, s, latch.drive)) ? [i] : [],
  );

/** An armature whose windings all store: its drive bends smoothly through a step. */
export const isSmooth = (rig: Rig, latch: number): boolean => rig.coils.has(latch);

const BISECTIONS = 40;

/**
 * When a latch began to want something else, as a share of a step: for a smooth drive on the cubics through both ends of
 * the step, by bisection; else at its end.
 */
export function crossing(
  { rig, inertia }: Stage,
  s: State,
  index: number,
  { from, to, seconds }: { readonly from: Moment; readonly to: Moment; readonly seconds: number },
): number {
  if (!isSmooth(rig, index)) return 1;
  const latch = rig.circuit.latches[index] as Latch;
  const wants = (share: number): boolean => {
    const x = from.x.map((_, k) => between(from, to, inertia, k, share, seconds));
    return wantsChange(latch, s, index, driveAt(rig, NOTHING, { ...to, x }, s, latch.drive));
  };
  const was = wants(0);
  let [low, high] = [0, 1];
  for (let k = 0; k < BISECTIONS && high - low > 1e-9; k++) {
    const mid = (low + high) / 2;
    if (wants(mid) === was) low = mid;
    else high = mid;
  }
  return high;
}

const NOTHING = new Uint8Array(0);

/** The cubic of store `k` through both ends of a step, with their slopes. */
function between(from: Moment, to: Moment, inertia: Float64Array, k: number, share: number, seconds: number): number {
  const [x0, x1] = [from.x[k] as number, to.x[k] as number];
  const m = inertia[k] as number;
  const [d0, d1] = [(seconds * (from.push[k] as number)) / m, (seconds * (to.push[k] as number)) / m];
  const left = 1 - share;
  return (
    left * left * (1 + 2 * share) * x0 +
    share * left * left * d0 +
    share * share * (3 - 2 * share) * x1 -
    share * share * left * d1
  );
}
