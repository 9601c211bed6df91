import type { Loom } from "@loomproof/netlist";
import { onState } from "../behave/loads.ts";
import type { Circuit, Latch } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { USUAL } from "../circuit/patch.ts";
import { inputsOf, relaysIn } from "../facts/words.ts";
import { floatingNodes } from "../solve/floating.ts";
import { type Choice, middle } from "../timeline/choice.ts";
import type { CoilValues } from "../timeline/coil.ts";
import type { Happening, Run, Sample } from "../timeline/happening.ts";
import { type MovesRead, readMoves } from "../timeline/read-moves.ts";
import { type Rig, rigOf } from "../timeline/rig.ts";
import { run } from "../timeline/run.ts";
import { digits } from "./digits.ts";
import { happeningWords, relayOf, restContactOf } from "./play-words.ts";
import type { StateSeen } from "./report.ts";
import type { Traces } from "./traces.ts";

/** What a script of moves does, over milliseconds. The JSON of `play --json`, published as a schema. */
export interface Timeline {
  readonly format: "loomproof-timeline/1";
  readonly title: string;
  /** Which of the admissible times were taken. */
  readonly times: Choice;
  readonly end: Run["end"];
  /** Where everything stands before the first move. */
  readonly before: StateSeen;
  readonly events: readonly TimelineEvent[];
  /** Where everything stands at the end. */
  readonly after: StateSeen;
  readonly coils: readonly CoilTaken[];
  readonly traces: Traces;
}

export interface TimelineEvent {
  readonly ms: number;
  readonly kind: Happening["kind"] | "rest contact";
  /** The part, input or module state. */
  readonly id: string;
  /** What it goes to: a position, on and off, or closed and open. */
  readonly to: string;
  /** In words; empty for what nobody needs to hear of. */
  readonly says: string;
  /** When it would have moved, had nothing called it back; of what is recalled only. */
  readonly dueMs?: number;
}

/** What a coil was taken to be. */
interface CoilTaken extends CoilValues {
  readonly id: string;
  readonly isMeasured: boolean;
  /** Amps that pull at which it begins to pull in and to let go; of coils with one winding. */
  readonly operateAmps?: number;
  readonly releaseAmps?: number;
}

export interface PlayOptions {
  readonly times?: Choice;
  /** Coils that were measured, by relay. They take the place of what is fitted to its times. */
  readonly coils?: Readonly<Record<string, CoilValues>>;
}

export type Played =
  | { readonly ok: true; readonly timeline: Timeline }
  | { readonly ok: false; readonly problem: Omit<Extract<MovesRead, { ok: false }>, "ok"> };

/**
 * Plays moves such as `"S1=run, 200ms S1=off"` on a loom: its currents and volts over time, and when what pulls in or
 * lets go. Before, the battery is connected with all inputs as usual, and all has come to rest.
 */
export function play(loom: Loom, moves: string, { times = "usual", coils = {} }: PlayOptions = {}): Played {
  const circuit = compile(loom);
  const read = readMoves(circuit, moves);
  if (!read.ok) return { ok: false, problem: { found: read.found, expected: read.expected } };
  const rig = rigOf(circuit, { choice: times, patch: USUAL, measured: coils });
  const result = run(rig, read.moves, { choice: times });
  return {
    ok: true,
    timeline: {
      format: "loomproof-timeline/1",
      title: loom.title ?? "",
      times,
      end: result.end,
      before: seenAt(rig, result.samples[0] as Sample),
      events: result.happenings.flatMap((h) => eventOf(circuit, h) ?? []),
      after: seenAt(rig, result.samples[result.samples.length - 1] as Sample),
      coils: [...rig.coils].map(([latch, values]) => takenOf(circuit, latch, values, coils)),
      traces: tracesOf(rig, result.samples),
    },
  };
}

/** To 1 µs, so that an event is found again in the traces. */
const milliseconds = (seconds: number): number => Math.round(seconds * 1e6) / 1000;

function eventOf(circuit: Circuit, h: Happening): TimelineEvent | undefined {
  const ms = milliseconds(h.seconds);
  const says = happeningWords(circuit, h);
  switch (h.kind) {
    case "move":
    case "stand": {
      const input = circuit.inputs[h.input];
      const to = input?.stands[h.stand] ?? "";
      return { ms, kind: h.kind, id: input?.id ?? "", to, says };
    }
    case "begins":
    case "recalled": {
      // A contact goes wherever its armature does.
      if (circuit.latches[h.latch]?.kind === "contact") return undefined;
      const due = h.kind === "recalled" ? { dueMs: milliseconds(h.due) } : {};
      return { ms, kind: h.kind, id: circuit.latches[h.latch]?.id ?? "", to: h.on ? "on" : "off", says, ...due };
    }
    case "latch": {
      const id = circuit.latches[relayOf(circuit, h.latch)]?.id ?? "";
      const rest = restContactOf(circuit, h);
      return rest === undefined
        ? { ms, kind: h.kind, id, to: h.on ? "on" : "off", says }
        : { ms, kind: "rest contact", id, to: rest, says };
    }
    default:
      return h satisfies never;
  }
}

function seenAt({ circuit, machine }: Rig, { state, closed, moment }: Sample): StateSeen {
  const on = circuit.loads.filter(
    (l) => onState(machine, state, { closed, op: moment.op, drives: NO_DRIVES }, l) === "on",
  );
  return {
    inputs: inputsOf(circuit, state),
    in: relaysIn(circuit, state),
    on: [...new Set(on.map((l) => l.part))],
  };
}

const NO_DRIVES = new Float64Array(0);

function takenOf(circuit: Circuit, latch: number, values: CoilValues, measured: PlayOptions["coils"]): CoilTaken {
  const id = circuit.latches[latch]?.part ?? "";
  return {
    id,
    openSeconds: digits(values.openSeconds),
    closedSeconds: digits(values.closedSeconds),
    operateDeadSeconds: digits(values.operateDeadSeconds),
    releaseDeadSeconds: digits(values.releaseDeadSeconds),
    transitSeconds: digits(values.transitSeconds),
    isMeasured: measured?.[id] !== undefined,
    ...thresholdsOf(circuit.latches[latch]),
  };
}

/** In the middle of their spread, as the player takes them. A polarised coil lets go at amps of the other sign. */
function thresholdsOf(latch: Latch | undefined): Pick<CoilTaken, "operateAmps" | "releaseAmps"> {
  if (latch?.drive.kind !== "amp-turns") return {};
  const [winding, ...others] = latch.drive.windings;
  if (winding === undefined || others.length > 0) return {};
  return {
    operateAmps: digits(middle(latch.on) / winding.turns),
    releaseAmps: digits(middle(latch.off) / winding.turns),
  };
}

const contactOf = ({ latches }: Circuit, latch: number): number => latches[latch]?.carries?.latch ?? latch;

function tracesOf(rig: Rig, samples: readonly Sample[]): Traces {
  const { circuit, machine, stores, gates } = rig;
  const windings = stores.flatMap((s, k) => (s.kind === "winding" ? [{ k, latch: s.latch }] : []));
  const floats = samples.map(({ closed, moment }) => floatingNodes(machine.network, closed, moment.op));
  const voltsOf = (n: number) =>
    samples.map(({ moment }, i) => (floats[i]?.[n] === 1 ? null : digits(moment.op.volts[n] ?? 0)));
  return {
    ms: samples.map((s) => milliseconds(s.seconds)),
    coils: windings.map(({ k, latch }, i) => ({
      id: circuit.latches[latch]?.part ?? "",
      winding: windings.slice(0, i).filter((w) => w.latch === latch).length + 1,
      amps: samples.map((s) => digits(s.moment.x[k] ?? 0)),
    })),
    contacts: gates.map((g) => {
      const { id, from, to } = circuit.elements[g]?.owner ?? { id: "", from: "", to: "" };
      return { part: id, from, to, closed: samples.map((s) => s.closed[g] ?? 0) };
    }),
    relays: circuit.coils.map(({ latch }) => ({
      id: circuit.latches[latch]?.id ?? "",
      // In while its make contact is closed.
      in: samples.map(({ state: { latches } }) =>
        Math.min(latches[latch] ?? 0, latches[contactOf(circuit, latch)] ?? 0),
      ),
    })),
    volts: Object.fromEntries(circuit.nodes.flatMap((name, n) => (name.includes("/") ? [] : [[name, voltsOf(n)]]))),
  };
}
