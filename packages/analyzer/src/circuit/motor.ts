import { type PartWith, ratedAmps } from "@loomproof/netlist";
import { ALWAYS, type Logic } from "./circuit.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { judgeOf } from "./load.ts";

const AMPS_NOT_GIVEN: Readonly<Record<string, number>> = { motor: 5, pump: 6, fan: 15, starter: 150 };

export function motor(part: PartWith<"motor">, door: Door, { systemVolts, inputNamed }: Context): void {
  const { values } = part;
  const amps = ratedAmps(values, systemVolts, AMPS_NOT_GIVEN[part.kind] ?? 5);
  const ohms = values.ohms ?? systemVolts / amps;
  const [from, to] = [door.terminal("+"), door.terminal("-")];
  const turned = values.emf === undefined ? undefined : inputNamed(values.emf.input);
  const at = (test: (value: string) => boolean): Logic =>
    turned === undefined
      ? ALWAYS
      : [
          [
            {
              negated: false,
              literals: [{ kind: "input", input: turned.index, stands: turned.input.stands.map(test) }],
            },
          ],
        ];
  const emfOf = (value: string): number => values.emf?.volts[value] ?? 0;
  const judge = judgeOf(values, { on: 0.6, partly: 0.25 }, amps);
  door.load(
    { from, to, says: "motor", ohms, closed: at((v) => emfOf(v) === 0) },
    judge,
    values.lowIsMeant !== undefined,
  );
  // Turned from outside it is a source behind its own resistance; not a feed that anybody designed.
  for (const value of new Set(Object.values(values.emf?.volts ?? {})))
    if (value !== 0)
      door.load(
        { from, to, says: "motor turned from outside", ohms, emf: value, closed: at((v) => emfOf(v) === value) },
        undefined,
      );
}
