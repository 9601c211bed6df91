import type { Span } from "@loomproof/netlist";
import type { Passage } from "../behave/flight.ts";
import { type Machine, machineOf } from "../behave/machine.ts";
import { settle, settleToRest } from "../behave/settle.ts";
import { coldState, type State, withLatches, withStand } from "../behave/state.ts";
import type { Circuit, Coil, Input, Latch } from "../circuit/circuit.ts";
import { USUAL } from "../circuit/patch.ts";
import { travelOf } from "../circuit/travel.ts";
import { type Choice, timeOf } from "../timeline/choice.ts";
import { type CoilValues, coilValues } from "../timeline/coil.ts";
import type { ScriptMove } from "../timeline/hand.ts";
import type { Run, RunOptions, Sample } from "../timeline/happening.ts";
import { rigOf } from "../timeline/rig.ts";
import { run } from "../timeline/run.ts";

// For tests: whether the state that a timeline settles in is one that `behave` reaches for the same moves.

export type Agreement =
  | { readonly kind: "agrees" }
  | { readonly kind: "both restless" }
  /** The timeline repeats itself; `behave` follows other orders as well, and one of them comes to rest. */
  | { readonly kind: "one order rests"; readonly says: string }
  | { readonly kind: "disagrees"; readonly says: string };

/** Moves to neighbouring positions, each at rest, repeatable by its seed. */
export function scriptOf(circuit: Circuit, seed: number, length: number): readonly ScriptMove[] {
  const random = randomBy(seed);
  const stands = circuit.inputs.map((i) => i.usual);
  const script: ScriptMove[] = [];
  const movable = circuit.inputs.flatMap((i, k) => (i.moves.length > 0 ? [k] : []));
  for (let k = 0; k < length && movable.length > 0; k++) {
    const input = movable[Math.floor(random() * movable.length)] as number;
    const ways = (circuit.inputs[input] as Input).moves.filter((m) => m.from === stands[input]);
    const way = ways[Math.floor(random() * ways.length)];
    if (way === undefined) continue;
    stands[input] = way.to;
    script.push({ at: "rest", input, stand: way.to });
  }
  return script;
}

/** One specimen of every relay and level: each threshold at a share of its spread, each time at the end chosen. */
export function specimen(circuit: Circuit, share: number, choice: Choice): Circuit {
  const point = (x: number): Span => ({ least: x, most: x });
  const at = ({ least, most }: Span): Span => point(least + share * (most - least));
  const when = (span: Span): Span => point(timeOf(span, choice));
  // The times of a relay hang together.
  const coils = circuit.coils.map((c): Coil => {
    const [operateTime, releaseTime] = [when(c.operateTime), when(c.releaseTime)];
    const most = Math.min(operateTime.least, releaseTime.least) / 2;
    return { ...c, operateTime, releaseTime, transit: point(Math.min(timeOf(c.transit, choice), most)) };
  });
  // How much slower a coil is for the diode beside it hangs on more than its own time.
  const isSlowed = (coil: Coil): boolean =>
    circuit.latches[coil.latch]?.offTime.most !== travelOf(coil.sides, coil).offTime.most;
  const slowed = new Set(circuit.coils.filter(isSlowed).map((c) => c.latch));
  const timesOf = (latch: Latch, index: number): Partial<Latch> => {
    const coil = coils.find((c) => c.latch === (latch.carriedBy ?? index));
    if (coil === undefined) return { onTime: when(latch.onTime), offTime: when(latch.offTime) };
    const { onTime, offTime, arrives } = travelOf(coil.sides, coil);
    if (latch.carriedBy !== undefined) return { onTime: coil.transit, offTime: coil.transit };
    const carries = latch.carries && arrives && { ...latch.carries, ...arrives };
    return slowed.has(index)
      ? { onTime, carries: carries && latch.carries && { ...carries, off: latch.carries.off } }
      : { onTime, offTime, carries };
  };
  return {
    ...circuit,
    coils,
    latches: circuit.latches.map((l, i) => ({ ...l, on: at(l.on), off: at(l.off), ...timesOf(l, i) })),
    inputs: circuit.inputs.map((i) => ({ ...i, moves: i.moves.map((m) => ({ ...m, seconds: when(m.seconds) })) })),
  };
}

/** Coils without storage: every relay takes the time of its part, whatever its current does. */
export const lightCoils = (circuit: Circuit, choice: Choice): Readonly<Record<string, CoilValues>> =>
  Object.fromEntries(
    circuit.coils.map(({ latch, operateTime, releaseTime, transit }) => {
      const [operateDeadSeconds, inAll, transitSeconds] = [operateTime, releaseTime, transit].map((t) =>
        timeOf(t, choice),
      ) as [number, number, number];
      const releaseDeadSeconds = inAll - transitSeconds;
      return [
        circuit.latches[latch]?.part,
        { openSeconds: 1e-12, closedSeconds: 1e-12, operateDeadSeconds, releaseDeadSeconds, transitSeconds },
      ];
    }),
  );

/** Coils as the transient takes them. */
export const realCoils = (circuit: Circuit, choice: Choice): Readonly<Record<string, CoilValues>> =>
  Object.fromEntries(
    circuit.coils.map((coil) => [circuit.latches[coil.latch]?.part, coilValues(circuit, coil, choice)]),
  );

/** Plays a script, and settles the same moves in `behave`: each state of rest must be among those that it reaches. */
export function agreementOf(
  circuit: Circuit,
  script: readonly ScriptMove[],
  options: RunOptions & { readonly coils: Readonly<Record<string, CoilValues>> },
): Agreement {
  const machine = machineOf(circuit, USUAL);
  const played = run(rigOf(circuit, { choice: options.choice, measured: options.coils }), script, options);
  const rests = restsOf(played);
  const { states: first, restless } = settleToRest(machine, coldState(circuit));
  let states: readonly State[] = first;
  let isRestless = restless !== undefined;
  for (const [k, rest] of rests.entries()) {
    const move = script[k - 1];
    if (move !== undefined) {
      const moved = states.map((s) => movedTo(machine, s, move));
      isRestless ||= moved.some((m) => m.isRestless);
      states = [...new Map(moved.flatMap((m) => m.states).map((s) => [s.key, s])).values()];
    }
    if (rest !== undefined && states.some((s) => s.pointKey === rest.pointKey)) continue;
    if (rest === undefined && (isRestless || states.length === 0)) return { kind: "both restless" };
    const is = rest === undefined ? played.end : onIn(circuit, rest);
    const says = `${textOf(circuit, script.slice(0, k))}: timeline ${is}, behave ${states.map((s) => onIn(circuit, s)).join(" or ")}`;
    return { kind: rest === undefined ? "one order rests" : "disagrees", says };
  }
  return { kind: "agrees" };
}

/** The state before each move and at the end; undefined at the end of what never came to rest. */
function restsOf({ samples, happenings, end, state }: Run): readonly (State | undefined)[] {
  const rests: (State | undefined)[] = [];
  let now = (samples[0] as Sample).state;
  for (const h of happenings) {
    if (h.kind === "move") rests.push(now);
    else if (h.kind === "stand") now = withStand(now, h.input, h.stand);
    else if (h.kind === "latch") now = withLatches(now, [h.latch], h.on);
  }
  return [...rests, end === "at rest" ? state : undefined];
}

function movedTo(machine: Machine, state: State, { input, stand }: ScriptMove) {
  const { moves } = machine.circuit.inputs[input] as Input;
  const way = moves.find((m) => m.from === state.stands[input] && m.to === stand);
  const states = new Map<string, State>();
  let isRestless = false;
  const passage: Passage | undefined =
    way?.via === undefined ? undefined : { input, stand, least: way.seconds.least, most: way.seconds.most };
  const settled = settle(machine, withStand(state, input, way?.via ?? stand), { passage });
  isRestless ||= settled.restless !== undefined;
  for (const l of settled.landings) {
    const rest = settleToRest(machine, l.state);
    isRestless ||= rest.restless !== undefined;
    for (const r of rest.states) states.set(r.key, r);
  }
  return { states: [...states.values()], isRestless };
}

const onIn = (circuit: Circuit, s: State): string =>
  `{${circuit.latches.flatMap((l, i) => (s.latches[i] === 1 ? [l.id] : [])).join(", ")}}`;

const textOf = (circuit: Circuit, script: readonly ScriptMove[]): string =>
  script.map((m) => `${circuit.inputs[m.input]?.id}=${circuit.inputs[m.input]?.stands[m.stand]}`).join(", ");

/** A small repeatable generator (32-bit mix). */
function randomBy(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (s + 0x6d2b79f5) >>> 0;
    let t = Math.imul(s ^ (s >>> 15), 1 | s);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
