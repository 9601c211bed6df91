import { coldState, type State, toggling, withStand } from "../behave/state.ts";
import { delayOf } from "../behave/want.ts";
import type { Latch } from "../circuit/circuit.ts";
import { type Choice, timeOf } from "./choice.ts";
import { stopsBetween } from "./hand.ts";
import type { Happening, Run, RunOptions, Sample } from "./happening.ts";
import { crossing, isSmooth, wantingAt } from "./latches.ts";
import type { Rig } from "./rig.ts";
import { eulerStep, type Moment, momentNow, nearRest, type Stage, smoothStep, stageOf } from "./step.ts";

const TOLERANCE = 2e-5;
const BUDGET_STEPS = 4000;
/** The first step after an event, where slopes have jumped. */
const FIRST_SECONDS = 2e-6;
/** Nearer than this is now. */
const LEAST_SECONDS = 1e-9;
const MOST_SECONDS = 0.1;
/** Events are found to 10 µs. */
const FINE_SECONDS = 1e-5;
/** Rounds of changes that take no time before something counts as buzzing. */
const MOST_ROUNDS = 100;

interface Pending {
  readonly latch: number;
  readonly at: number;
}

/** Steps from event to event. */
export class Player {
  readonly #rig: Rig;
  readonly #choice: Choice;
  readonly #tolerance: number;
  readonly #budget: number;
  #samples: Sample[] = [];
  #happenings: Happening[] = [];
  #seconds = 0;
  /** Since the last move, and in all. */
  #steps = 0;
  #allSteps = 0;
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
    this.#stage = stageOf(rig, this.#state);
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
    this.#allSteps = 0;
    this.#record();
  }

  result(): Run {
    const { end } = this;
    return { samples: this.#samples, happenings: this.#happenings, end, state: this.#state, steps: this.#allSteps };
  }

  move(input: number, stand: number): void {
    const from = this.#state.stands[input] as number;
    this.#happenings.push({ kind: "move", seconds: this.#seconds, input, stand });
    this.#steps = 0;
    this.#stops = this.#stops.filter((s) => s.input !== input);
    for (const stop of stopsBetween(this.#rig.circuit, input, from, stand, this.#choice))
      this.#stops.push({ at: this.#seconds + stop.after, input, stand: stop.stand });
    this.#due();
  }

  until(seconds: number): void {
    while (this.end === "at rest" && this.#seconds < seconds) this.#go(seconds);
  }

  wait(seconds: number): void {
    this.until(this.#seconds + seconds);
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
    this.#allSteps++;
    if (++this.#steps > this.#budget) {
      this.end = "never at rest";
      return;
    }
    const next = Math.min(limit, this.#nextEvent());
    const gap = next - this.#seconds;
    if (gap <= LEAST_SECONDS) {
      this.#seconds = Math.max(this.#seconds, next);
      this.#due();
    } else if (next < Infinity && this.#settleStores()) {
      this.#seconds = next;
      this.#record();
      this.#due();
    } else if (this.#stride === undefined) this.#step(Math.min(FIRST_SECONDS, gap), true);
    else this.#step(Math.min(this.#stride, gap), false);
  }

  #step(seconds: number, isFirst: boolean): void {
    const from = this.#moment;
    const { to, error } = isFirst
      ? { to: eulerStep(this.#stage, from, seconds), error: 0 }
      : smoothStep(this.#stage, from, seconds);
    if (error > this.#tolerance && seconds > FIRST_SECONDS) {
      this.#stride = seconds / 2;
      return;
    }
    const pending = this.#pending;
    const turned = this.#turnedIn(to);
    // What does not bend smoothly is found by halving the step.
    if (seconds > FINE_SECONDS && turned.some((l) => !isSmooth(this.#rig, l))) {
      this.#stride = seconds / 2;
      return;
    }
    const told: Happening[] = [];
    for (const latch of turned)
      told.push(
        this.#turnAt(latch, this.#seconds + seconds * crossing(this.#stage, this.#state, latch, { from, to, seconds })),
      );
    const landing = this.#nextEvent();
    if (landing < this.#seconds + seconds - FINE_SECONDS / 2) {
      // It lands within this step, and changes what came after.
      this.#pending = pending;
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
  }

  /** Latches that, at the end of a step, want something else than before. */
  #turnedIn(to: Moment): readonly number[] {
    const wanting = wantingAt(this.#stage, to, this.#state);
    const onTheirWay = this.#pending.map((p) => p.latch);
    return [...wanting.filter((l) => !onTheirWay.includes(l)), ...onTheirWay.filter((l) => !wanting.includes(l))].sort(
      (a, b) => a - b,
    );
  }

  /** A latch begins to move, or is recalled. */
  #turnAt(latch: number, seconds: number): Happening {
    const on = this.#state.latches[latch] === 0;
    const due = this.#pending.find((p) => p.latch === latch)?.at;
    if (due !== undefined) {
      this.#pending = this.#pending.filter((p) => p.latch !== latch);
      return { kind: "recalled", seconds, latch, on, due };
    }
    this.#pending = [...this.#pending, { latch, at: seconds + this.#delayOf(latch, on) }];
    return { kind: "begins", seconds, latch, on };
  }

  #delayOf(latch: number, on: boolean): number {
    const delays = this.#rig.delays.get(latch);
    if (delays !== undefined) return on ? delays.on : delays.off;
    return timeOf(delayOf(this.#rig.circuit.latches[latch] as Latch, on, this.#state), this.#choice);
  }

  /** Lets what is due happen. */
  #due(): void {
    const due = (at: number) => at <= this.#seconds + FINE_SECONDS / 2;
    const stops = this.#stops.filter((s) => due(s.at));
    const landing = this.#pending.filter((p) => due(p.at)).map((p) => p.latch);
    if (stops.length + landing.length === 0) return;
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
      this.#stage = stageOf(this.#rig, this.#state);
      this.#moment = momentNow(this.#stage, this.#moment.x);
      const turned = this.#turnedIn(this.#moment);
      // What is on its way goes at once when what it needs has gone.
      const instant = wantingAt(this.#stage, this.#moment, this.#state).filter((l) => this.#takesNoTime(l));
      if (instant.length === 0) {
        for (const latch of turned) this.#happenings.push(this.#turnAt(latch, this.#seconds));
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

  /** Whether all that is stored is as good as at rest. Then it is put there; if that moves a latch, it is not. */
  #settleStores(): boolean {
    if (this.#stride === undefined && this.#rig.stores.length > 0) return false;
    const rest = nearRest(this.#stage, this.#moment);
    if (rest === undefined) return false;
    this.#moment = rest;
    if (this.#turnedIn(rest).length === 0) return true;
    this.#arrange();
    return false;
  }

  #record(): void {
    const sample = { seconds: this.#seconds, state: this.#state, closed: this.#stage.closed, moment: this.#moment };
    this.#samples.push(sample);
  }
}
