import { type PartWith, SUPPLY_12V } from "@loomproof/netlist";
import { type Logic, whileOn } from "./circuit.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";

/** Volts behind the exciter diodes follow the output; three small diodes carry little: from memory. */
const EXCITER_OHMS = 0.05;
const EXCITER_AMPS = 6;

/**
 * At rest its field draws through the charge lamp, which lights. Turned, and excited by that current, it gives on B+
 * and D+ alike: the lamp has the same volts at both ends and goes out. Not excited, it gives nothing.
 */
export function alternator(part: PartWith<"alternator">, door: Door, context: Context): void {
  const { values } = part;
  const [out, exciter, body] = [door.terminal("B+"), door.terminal("D+"), door.terminal("31")];
  const field = door.load({ from: exciter, to: body, says: "field", ohms: values.field }, undefined);
  const engine = context.engineNamed(values.turnedBy);
  door.returnPole(exciter, field);
  if (engine === undefined) return;
  const excited = door.latch({
    id: `${part.id}/excited`,
    kind: "state",
    says: { on: "begins to charge", off: "no longer charges" },
    drive: { kind: "amp-turns", windings: [{ element: field, turns: 1 }], sign: "positive" },
    on: values.excitedAt,
    off: { least: values.excitedAt.least / 4, most: values.excitedAt.least / 2 },
    needs: engine.turning,
  });
  const closed: Logic = [[whileOn(excited), whileOn(engine.turning)]];
  const emf = values.volts ?? (SUPPLY_12V.running.usual * context.systemVolts) / 12;
  const shared = { to: body, emf, oneWay: true, supply: "running" as const, feeds: true, closed };
  door.source({ ...shared, from: out, says: "alternator", ohms: values.ohms });
  door.source({
    ...shared,
    from: exciter,
    says: "exciter of the alternator",
    ohms: EXCITER_OHMS,
    mostAmps: EXCITER_AMPS,
  });
}
