import { closedIn } from "../behave/machine.ts";
import type { State } from "../behave/state.ts";
import type { OperatingPoint } from "../solve/operate.ts";
import { operate } from "../solve/operate.ts";
import type { Rig, Store } from "./rig.ts";

// One step in time. What stores becomes a conductance and an emf in the nodal matrix of the operating point; everything
// else stays as it is there. For a winding x is the current behind its losses and push the volts over its inductance;
// for a capacitor x is volts and push the current: dx/dt = push / inertia.
//
// Method: TR-BDF2, Bank, Coughran, Fichtner, Grosse, Rose and Smith, IEEE Trans. CAD 4 (1985) (from memory): a
// trapezoid to 2 − √2 of the step, then the second backward difference; both stages have the same matrix. After an
// event, where slopes jump, a backward Euler step comes first.

/** What is stored at one moment, and the volts and currents that go with it. */
export interface Moment {
  readonly x: Float64Array;
  readonly push: Float64Array;
  readonly op: OperatingPoint;
}

/** What stores, with the inertia that the armatures give it now: henries or farads. */
export interface Stage {
  readonly rig: Rig;
  /** By element of the rig's network. */
  readonly closed: Uint8Array;
  readonly inertia: Float64Array;
}

/** What conducts in a state, and how heavy each store is. */
export function stageOf(rig: Rig, state: State): Stage {
  const { machine, network, circuit, gates, stores } = rig;
  const closed = new Uint8Array(network.a.length);
  closed.set(closedIn(machine, state));
  gates.forEach((g, k) => {
    closed[circuit.elements.length + k] = closed[g] === 1 ? 0 : 1;
  });
  const inertia = Float64Array.from(stores, (s) =>
    s.kind === "capacitor" ? s.farads : state.latches[s.latch] === 1 ? s.closed : s.open,
  );
  return { rig, closed, inertia };
}

const GAMMA = 2 - Math.SQRT2;
/** Of the local error of TR-BDF2: (−3γ² + 4γ − 2) / (12 (2 − γ)). */
const ERROR = (-3 * GAMMA * GAMMA + 4 * GAMMA - 2) / (12 * (2 - GAMMA));

/** Solves with each store as x = gain × push + past. */
function solveWith({ rig, closed }: Stage, gain: Float64Array, past: Float64Array, near: Float64Array): Moment {
  const { network, stores } = rig;
  stores.forEach((s, k) => {
    const [g, h] = [gain[k] as number, past[k] as number];
    const { siemens, emf } = companion(s, g, h);
    network.values.siemens[s.element] = siemens;
    network.values.emf[s.element] = emf;
  });
  const op = operate(network, closed, near);
  const x = new Float64Array(stores.length);
  const push = new Float64Array(stores.length);
  stores.forEach((s, k) => {
    const [g, h] = [gain[k] as number, past[k] as number];
    const volts = across(rig, op, s.element);
    if (closed[s.element] === 0) {
      x[k] = h;
      return;
    }
    if (s.kind === "winding") {
      const over = volts - s.ohms * (op.amps[s.element] as number);
      push[k] = over;
      x[k] = h + g * over;
    } else {
      push[k] = (volts - h) / g;
      x[k] = volts;
    }
  });
  return { x, push, op };
}

const across = ({ network }: Rig, op: OperatingPoint, e: number): number =>
  (op.volts[network.a[e] as number] as number) - (op.volts[network.b[e] as number] as number);

function companion(s: Store, gain: number, past: number): { readonly siemens: number; readonly emf: number } {
  if (s.kind === "winding") {
    // The losses lie beside the inductance: amps = x + push / lossOhms.
    const behind = 1 / (gain + 1 / s.lossOhms);
    return { siemens: 1 / (s.ohms + behind), emf: -behind * past };
  }
  const siemens = 1 / s.ohms + 1 / gain;
  return { siemens, emf: past / (gain * siemens) };
}

/** Backward Euler over `seconds`. */
export function eulerStep(stage: Stage, from: Moment, seconds: number): Moment {
  const gain = stage.inertia.map((m) => seconds / m);
  return solveWith(stage, gain, from.x, from.op.volts);
}

/** TR-BDF2 over `seconds`, with its error as a share of each store's scale: the largest. */
export function smoothStep(
  stage: Stage,
  from: Moment,
  seconds: number,
): { readonly to: Moment; readonly error: number } {
  const { inertia, rig } = stage;
  const gain = inertia.map((m) => (GAMMA * seconds) / (2 * m));
  const half = solveWith(
    stage,
    gain,
    from.x.map((x, k) => x + (gain[k] as number) * (from.push[k] as number)),
    from.op.volts,
  );
  const rest = (1 - GAMMA) * (1 - GAMMA);
  const to = solveWith(
    stage,
    gain,
    from.x.map((x, k) => ((half.x[k] as number) - rest * x) / (GAMMA * (2 - GAMMA))),
    half.op.volts,
  );
  let error = 0;
  rig.stores.forEach((s, k) => {
    const [f0, f1, f2] = [from.push[k] as number, half.push[k] as number, to.push[k] as number];
    const bend = f0 / GAMMA - f1 / (GAMMA * (1 - GAMMA)) + f2 / (1 - GAMMA);
    error = Math.max(error, Math.abs((2 * ERROR * seconds * bend) / ((inertia[k] as number) * s.scale)));
  });
  return { to, error };
}

/** What of its scale a store may still be away from rest. */
const REST_SHARE = 1e-4;
/** A capacitor is at rest when in a second it moves by no more than this share of the system volts. */
const REST_SHARE_A_SECOND = 1e-3;

/** The rest that all that is stored is as good as at; undefined while something still moves. */
export function nearRest(stage: Stage, { x, push, op }: Moment): Moment | undefined {
  const { stores } = stage.rig;
  const isSlow = stores.every((s, k) =>
    s.kind === "winding"
      ? Math.abs(push[k] as number) <= 10 * REST_SHARE * s.scale * s.ohms
      : Math.abs(push[k] as number) <= REST_SHARE_A_SECOND * s.scale * s.farads,
  );
  if (!isSlow) return undefined;
  const rest = restPoint(stage, { x, push, op });
  const isNear = stores.every((s, k) => Math.abs((rest.x[k] as number) - (x[k] as number)) <= REST_SHARE * s.scale);
  return isNear ? rest : undefined;
}

/** Where everything would end if nothing switched any more: windings without volts, capacitors as they are. */
function restPoint(stage: Stage, from: Moment): Moment {
  const { stores } = stage.rig;
  const gain = stores.map((s) => (s.kind === "winding" ? REST_GAIN : HOLD_SECONDS / s.farads));
  const { op } = solveWith(stage, Float64Array.from(gain), from.x, nowhere(stage));
  const x = from.x.map((held, k) => (stores[k]?.kind === "winding" ? (op.amps[stores[k].element] as number) : held));
  return { x, push: new Float64Array(x.length), op };
}

/** An inductance of next to nothing. */
const REST_GAIN = 1e15;
/** So short that nothing stored has moved. */
const HOLD_SECONDS = 1e-6;

/** Volts and currents now, with all that is stored held. */
export function momentNow(stage: Stage, x: Float64Array): Moment {
  const gain = stage.inertia.map((m) => HOLD_SECONDS / m);
  return { ...solveWith(stage, gain, x, nowhere(stage)), x };
}

/** What nothing holds has the volts that it has in an operating point: those that the solve starts from. */
const nowhere = ({ rig }: Stage): Float64Array => new Float64Array(rig.circuit.nodes.length);
