import { closedIn, delayOf } from "../behave/machine.ts";
import { coldState, type State, toggling, withStand } from "../behave/state.ts";
import type { Latch } from "../circuit/circuit.ts";
import { type Choice, timeOf } from "./choice.ts";
import { type ScriptMove, stopsBetween } from "./hand.ts";
import { crossing, driveAt, isSmooth, wantsChange } from "./latches.ts";
import type { Rig } from "./rig.ts";
import { eulerStep, type Moment, momentNow, restPoint, type Stage, smoothStep } from "./step.ts";

/** Something that happened, in seconds from the start of the script. */
export type Happening =
  /** The script moves an input. */
  | { readonly kind: "move"; readonly seconds: number; readonly input: number; readonly stand: number }
  /** It reaches a stand on its way, the last one included. */
  | { readonly kind: "stand"; readonly seconds: number; readonly input: number; readonly stand: number }
  /** A drive has passed its threshold: the latch follows. */
  | { readonly kind: "begins"; readonly seconds: number; readonly latch: number; readonly on: boolean }
  /** It came back before the latch had moved. */
  | { readonly kind: "recalled"; readonly seconds: number; readonly latch: number; readonly on: boolean }
  /** The contact has landed, the state has changed. */
  | { readonly kind: "latch"; readonly seconds: number; readonly latch: number; readonly on: boolean };

/** Volts and currents at one moment. Before and after an event there is one sample each, at the same time. */
export interface Sample {
  readonly seconds: number;
  readonly state: State;
  readonly closed: Uint8Array;
  readonly moment: Moment;
}

export interface Run {
  readonly samples: readonly Sample[];
  readonly happenings: readonly Happening[];
  /** Nothing moves any more; or the budget of steps was spent first; or latches that take no time drive each other. */
  readonly end: "at rest" | "never at rest" | "buzzes";
  readonly state: State;
  readonly steps: number;
}

export interface RunOptions {
  readonly choice: Choice;
  /** Largest error of one step, as a share of a coil's rated current or of the system volts. */
  readonly tolerance?: number;
  /** Steps after which a run that does not come to rest is given up. */
  readonly budget?: number;
}

const TOLERANCE = 2e-5;
const BUDGET_STEPS = 20_000;
/** The first step after an event, where slopes have jumped. */
const FIRST_SECONDS = 2e-6;
const MOST_SECONDS = 0.1;
/** Events are found to 10 µs. */
const FINE_SECONDS = 1e-5;
/** What of its scale a store may still be away from rest. */
const REST_SHARE = 1e-4;
/** A capacitor is at rest when in a second it moves by no more than this share of the system volts. */
const REST_SHARE_A_SECOND = 1e-3;
/** Rounds of changes that take no time before something counts as buzzing. */
const MOST_ROUNDS = 100;

interface Pending {
  readonly latch: number;
  readonly at: number;
}

/**
 * Plays a script. Before it the battery is connected, with all inputs as usual, and all comes to rest; that is not part
 * of the samples.
 */
export function run(rig: Rig, script: readonly ScriptMove[], options: RunOptions): Run {
  const player = new Player(rig, options);
  player.untilRest();
  player.begin();
  for (const { at, input, stand } of script) {
    if (at === "rest") player.untilRest();
    else if (at !== "at once") player.until(at);
    if (player.end === "at rest") player.move(input, stand);
  }
  player.untilRest();
  return player.result();
}

class Player {
  readonly #rig: Rig;
  readonly #choice: Choice;
  readonly #tolerance: number;
  readonly #budget: number;
  #samples: Sample[] = [];
  #happenings: Happening[] = [];
  #seconds = 0;
  #steps = 0;
  #state: State;
  #stage: Stage;
  #moment: Moment;
  #pending: Pending[] = [];
  /** Inputs on their way. */
  #stops: { readonly at: number; readonly input: number; readonly stand: number }[] = [];
  /** Length of the next step; undefined right after an event. */
  #stride: number | undefined;
  end: Run["end"] = "at rest";

  constructor(rig: Rig, { choice, tolerance = TOLERANCE, budget = BUDGET_STEPS }: RunOptions) {
    this.#rig = rig;
    this.#choice = choice;
    this.#tolerance = tolerance;
    this.#budget = budget;
    this.#state = coldState(rig.circuit);
    this.#stage = this.#staged();
    const nothing = new Float64Array(rig.stores.length);
    this.#moment = momentNow(this.#stage, nothing);
    this.#arrange();
  }

  /** Forgets what was before: the script begins. */
  begin(): void {
    this.#samples = [];
    this.#happenings = [];
    this.#seconds = 0;
    this.#steps = 0;
    this.#record();
  }

  result(): Run {
    const { end } = this;
    return { samples: this.#samples, happenings: this.#happenings, end, state: this.#state, steps: this.#steps };
  }

  move(input: number, stand: number): void {
    const from = this.#state.stands[input] as number;
    this.#happenings.push({ kind: "move", seconds: this.#seconds, input, stand });
    this.#stops = this.#stops.filter((s) => s.input !== input);
    for (const stop of stopsBetween(this.#rig.circuit, input, from, stand, this.#choice))
      this.#stops.push({ at: this.#seconds + stop.after, input, stand: stop.stand });
    this.#due();
  }

  until(seconds: number): void {
    while (this.end === "at rest" && this.#seconds < seconds) this.#go(seconds);
  }

  untilRest(): void {
    while (this.end === "at rest" && !this.#isQuiet()) this.#go(Infinity);
  }

  #isQuiet(): boolean {
    return this.#nextEvent() === Infinity && this.#settleStores();
  }

  #nextEvent(): number {
    let next = Infinity;
    for (const p of this.#pending) next = Math.min(next, p.at);
    for (const s of this.#stops) next = Math.min(next, s.at);
    return next;
  }

  /** One step, or the way to the next event at once where nothing moves meanwhile. */
  #go(limit: number): void {
    if (++this.#steps > this.#budget) {
      this.end = "never at rest";
      return;
    }
    const next = Math.min(limit, this.#nextEvent());
    const gap = next - this.#seconds;
    if (gap <= 0) this.#due();
    else if (next < Infinity && this.#settleStores()) {
      this.#seconds = next;
      this.#record();
      this.#due();
    } else if (this.#stride === undefined) this.#step(Math.min(FIRST_SECONDS, gap), true);
    else this.#step(Math.min(this.#stride, gap), false);
  }

  #step(seconds: number, isFirst: boolean): void {
    const from = this.#moment;
    let error = 0;
    let to: Moment;
    if (isFirst) to = eulerStep(this.#stage, from, seconds);
    else ({ to, error } = smoothStep(this.#stage, from, seconds));
    if (error > this.#tolerance && seconds > FIRST_SECONDS) {
      this.#stride = seconds / 2;
      return;
    }
    const before = this.#pending;
    const turned = this.#turnedIn(to);
    // What does not bend smoothly is found by halving the step.
    if (seconds > FINE_SECONDS && turned.some((l) => !isSmooth(this.#rig, l))) {
      this.#stride = seconds / 2;
      return;
    }
    const told: Happening[] = [];
    for (const latch of turned) told.push(this.#turn(latch, from, to, seconds));
    const landing = this.#nextEvent();
    if (landing < this.#seconds + seconds - FINE_SECONDS / 2) {
      // It lands within this step, and changes what came after.
      this.#pending = before;
      this.#stride = undefined;
      this.#step(Math.max(landing - this.#seconds, FIRST_SECONDS), isFirst);
      return;
    }
    this.#happenings.push(...told.sort((a, b) => a.seconds - b.seconds));
    this.#seconds += seconds;
    this.#moment = to;
    this.#stride = error < this.#tolerance / 12 ? Math.min(2 * seconds, MOST_SECONDS) : seconds;
    this.#record();
    this.#due();
    if (turned.some((l) => !isSmooth(this.#rig, l))) this.#arrange();
  }

  /** Latches that, at the end of a step, want something else than before. */
  #turnedIn(to: Moment): readonly number[] {
    const wanting = this.#wantingIn(to);
    const onTheirWay = this.#pending.map((p) => p.latch);
    return [...wanting.filter((l) => !onTheirWay.includes(l)), ...onTheirWay.filter((l) => !wanting.includes(l))].sort(
      (a, b) => a - b,
    );
  }

  #wantingIn(moment: Moment): readonly number[] {
    const { closed } = this.#stage;
    return this.#rig.circuit.latches.flatMap((latch, i) => {
      const drive = driveAt(this.#rig, closed, moment, this.#state, latch.drive);
      return wantsChange(latch, this.#state, i, drive) ? [i] : [];
    });
  }

  /** A latch begins to move, or is recalled. */
  #turn(latch: number, from: Moment, to: Moment, seconds: number): Happening {
    const share = isSmooth(this.#rig, latch)
      ? crossing(this.#rig, this.#stage.inertia, this.#state, latch, { from, to, seconds })
      : 1;
    return this.#turnAt(latch, this.#seconds + share * seconds);
  }

  #turnAt(latch: number, seconds: number): Happening {
    const on = this.#state.latches[latch] === 0;
    if (this.#pending.some((p) => p.latch === latch)) {
      this.#pending = this.#pending.filter((p) => p.latch !== latch);
      return { kind: "recalled", seconds, latch, on };
    }
    this.#pending = [...this.#pending, { latch, at: seconds + this.#delayOf(latch, on) }];
    return { kind: "begins", seconds, latch, on };
  }

  #delayOf(latch: number, on: boolean): number {
    const coil = this.#rig.coils.get(latch);
    if (coil !== undefined) return on ? coil.operateDeadSeconds : coil.releaseDeadSeconds;
    return timeOf(delayOf(this.#rig.circuit.latches[latch] as Latch, on, this.#state), this.#choice);
  }

  /** Lets what is due happen. */
  #due(): void {
    const due = (at: number) => at <= this.#seconds + FINE_SECONDS / 2;
    const stops = this.#stops.filter((s) => due(s.at));
    const landing = this.#pending.filter((p) => due(p.at)).map((p) => p.latch);
    if (stops.length === 0 && landing.length === 0) return;
    this.#stops = this.#stops.filter((s) => !due(s.at));
    for (const { input, stand } of stops) {
      this.#state = withStand(this.#state, input, stand);
      this.#happenings.push({ kind: "stand", seconds: this.#seconds, input, stand });
    }
    this.#toggle(landing);
    this.#arrange();
  }

  #toggle(latches: readonly number[]): void {
    if (latches.length === 0) return;
    this.#state = toggling(this.#state, latches);
    this.#pending = this.#pending.filter((p) => !latches.includes(p.latch));
    for (const latch of latches) {
      const on = this.#state.latches[latch] === 1;
      this.#happenings.push({ kind: "latch", seconds: this.#seconds, latch, on });
    }
  }

  /** After an event: what takes no time follows at once, what takes time begins. */
  #arrange(): void {
    this.#stride = undefined;
    for (let round = 0; ; round++) {
      this.#stage = this.#staged();
      this.#moment = momentNow(this.#stage, this.#moment.x);
      const turned = this.#turnedIn(this.#moment);
      // What is on its way goes at once when what it needs has gone.
      const instant = this.#wantingIn(this.#moment).filter((l) => this.#takesNoTime(l));
      if (instant.length === 0) {
        for (const latch of turned) {
          const told = this.#turnAt(latch, this.#seconds);
          this.#happenings.push(told);
        }
        break;
      }
      if (round >= MOST_ROUNDS) {
        this.end = "buzzes";
        break;
      }
      this.#toggle(instant);
    }
    this.#record();
  }

  #takesNoTime(latch: number): boolean {
    return !isSmooth(this.#rig, latch) && this.#delayOf(latch, this.#state.latches[latch] === 0) === 0;
  }

  /** What conducts and how heavy each store is now. */
  #staged(): Stage {
    const { machine, network, circuit, gates, stores } = this.#rig;
    const closed = new Uint8Array(network.a.length);
    closed.set(closedIn(machine, this.#state));
    gates.forEach((g, k) => {
      closed[circuit.elements.length + k] = closed[g] === 1 ? 0 : 1;
    });
    const inertia = Float64Array.from(stores, (s) =>
      s.kind === "capacitor" ? s.farads : this.#state.latches[s.latch] === 1 ? s.closed : s.open,
    );
    return { rig: this.#rig, closed, inertia };
  }

  /**
   * Whether all that is stored is as good as at rest. Then it is put there; if that moves a latch, it is not.
   */
  #settleStores(): boolean {
    const { stores } = this.#rig;
    const { push, x } = this.#moment;
    if (this.#stride === undefined && stores.length > 0) return false;
    const isSlow = stores.every((s, k) =>
      s.kind === "winding"
        ? Math.abs(push[k] as number) <= 10 * REST_SHARE * s.scale * s.ohms
        : Math.abs(push[k] as number) <= REST_SHARE_A_SECOND * s.scale * s.farads,
    );
    if (!isSlow) return false;
    const rest = restPoint(this.#stage, this.#moment);
    const isNear = stores.every((s, k) => Math.abs((rest.x[k] as number) - (x[k] as number)) <= REST_SHARE * s.scale);
    if (!isNear) return false;
    this.#moment = rest;
    const turned = this.#turnedIn(rest);
    if (turned.length === 0) return true;
    this.#arrange();
    return false;
  }

  #record(): void {
    const sample = { seconds: this.#seconds, state: this.#state, closed: this.#stage.closed, moment: this.#moment };
    this.#samples.push(sample);
  }
}
