import type { Hold } from "../behave/hold.ts";
import { pointOf } from "../behave/machine.ts";
import type { Circuit } from "../circuit/circuit.ts";
import { type Caught, caughtIn } from "../facts/caught.ts";
import type { RunFacts } from "../facts/facts.ts";
import { eventWords, millis } from "../facts/words.ts";
import { coilVolts } from "../rules/self-hold.ts";
import { digits } from "./digits.ts";
import { relayOf } from "./play-words.ts";
import type { HoldSeen } from "./report.ts";

/** What holds a ring in, in ids and numbers. `standing`: it holds whatever the times. */
export function holdSeen(run: RunFacts, hold: Hold, standing: boolean): HoldSeen {
  const { circuit } = run.machine;
  const { drives } = pointOf(run.machine, hold.state);
  const id = (latch: number) => circuit.latches[latch]?.id ?? "";
  const kind = hold.through === "leak" ? "leak" : standing ? "standing" : "caught";
  const caught = kind === "caught" ? caughtIn(run, hold) : undefined;
  return {
    ring: hold.ring.map(id),
    followers: hold.followers.map(id),
    kind,
    ...(caught && { margin: marginSeen(circuit, caught) }),
    coil: hold.ring.map((r) => {
      const c = coilVolts(circuit, drives, r);
      return {
        id: c.id,
        volts: digits(c.volts),
        releaseLeast: digits(c.releaseLeast),
        releaseMost: digits(c.releaseMost),
      };
    }),
  };
}

const marginSeen = (circuit: Circuit, { closes, latch, least, most }: Caught): NonNullable<HoldSeen["margin"]> => ({
  says: `${eventWords(circuit, closes)} ${least === most ? "" : "up to "}${millis(most)} before ${circuit.latches[latch]?.id} would let go`,
  by:
    (closes.kind === "stand" ? circuit.inputs[closes.input] : circuit.latches[relayOf(circuit, closes.latch)])?.id ??
    "",
  relay: circuit.latches[latch]?.id ?? "",
  least: digits(least * 1e3),
  most: digits(most * 1e3),
});
