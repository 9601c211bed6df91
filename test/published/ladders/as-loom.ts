import { type Loom, sketch } from "@loomproof/netlist";
import type { Ladder, Rung } from "./ladder.ts";

/** Wide and equal, so that every order of relays is possible. */
const ANY_TIME = ["0 ms", "1000 ms"];

/** A ladder as it would be wired: full volts on a coil or none. Every contact is a pair of terminals of its own. */
export function asLoom({ buttons, relays }: Ladder, contacts: "in no time" | "in the air" = "in no time"): Loom {
  const parts: Record<string, Record<string, unknown>> = { "G1 battery": {}, "F1 protector": {} };
  const wires = ["G1.+ F1.a"];
  const poles = new Map<string, number>();
  const transit = contacts === "in the air" ? ANY_TIME : "0 ms";
  const sets = new Map<string, Record<string, string>[]>(relays.map((r) => [r.id, []]));
  let joints = 0;
  const joint = () => {
    parts[`X${++joints} splice`] = {};
    return `X${joints}.1`;
  };
  const wire = (from: string, to: string) => void wires.push(`${from} ${to}`);
  const put = (rung: Rung, from: string, to: string): void => {
    switch (rung.kind) {
      case "series": {
        const between = [from, ...rung.parts.slice(1).map(joint), to];
        for (const [i, part] of rung.parts.entries()) put(part, between[i] ?? "", between[i + 1] ?? "");
        break;
      }
      case "parallel":
        for (const part of rung.parts) put(part, from, to);
        break;
      case "button": {
        const pole = poles.get(rung.of) ?? 0;
        poles.set(rung.of, pole + 1);
        wire(from, `${rung.of}.${2 * pole + 1}`);
        wire(`${rung.of}.${2 * pole + 2}`, to);
        break;
      }
      case "make":
      case "break": {
        const list = sets.get(rung.of) ?? [];
        const [common, other] = [`c${list.length}`, `o${list.length}`];
        list.push({ common, [rung.kind]: other });
        wire(from, `${rung.of}.${common}`);
        wire(`${rung.of}.${other}`, to);
        break;
      }
      default:
        rung satisfies never;
    }
  };
  for (const { id, rung } of relays) {
    put(rung, "F1.b", `${id}.86`);
    wire(`${id}.85`, "G1.-");
  }
  for (const { id, isBreak } of buttons) {
    const pairs = Array.from({ length: poles.get(id) ?? 0 }, (_, p) => [`${2 * p + 1}`, `${2 * p + 2}`]);
    const joins = { rest: isBreak ? pairs : [], pressed: isBreak ? [] : pairs };
    parts[`${id} switch ${isBreak ? "push-break" : "push"}`] = { joins };
  }
  for (const { id } of relays)
    parts[`${id} relay make`] = {
      contacts: sets.get(id) ?? [],
      operateTime: ANY_TIME,
      releaseTime: ANY_TIME,
      transit,
    };
  const loom = sketch({ parts, wires });
  return { ...loom, system: { ...loom.system, supply: "fixed" } };
}
