import type { FormField } from "@loomproof/netlist";
import { ChoiceField } from "../fields/choice-field.tsx";
import { LineField } from "../fields/line-field.tsx";
import { QuantityField } from "../fields/quantity-field.tsx";
import { refused } from "../fields/refusal.ts";

type Given =
  | "none"
  | { readonly diode: string }
  | { readonly resistor: string }
  | { readonly zener: string; readonly diode?: string };

interface Props {
  readonly field: FormField;
  readonly value: unknown;
  /** Start and end of the coil, as its current flows. */
  readonly coil: readonly [string, string];
  readonly set: (value: unknown, text: string) => string | undefined;
}

/** A sensible start of each; a diode lies against the current of the coil [common practice, no source]. */
function startOf(kind: string, against: string): Given | undefined {
  switch (kind) {
    case "none":
      return "none";
    case "diode":
      return { diode: against };
    case "resistor":
      return { resistor: "680 ohm" };
    case "zener":
      return { zener: "24 V", diode: against };
    default:
      return undefined;
  }
}

/** What is fitted across a coil: which, and its one value. */
export function SuppressionField({ field, value, coil: [start, end], set }: Props) {
  const given = value as Given | undefined;
  const kind = kindOf(given);
  const put = (next: Given | undefined) => set(next, textOf(next));
  const both = typeof given === "object" ? given : undefined;
  return (
    <>
      <ChoiceField
        title="Suppression"
        says={field.says}
        value={kind}
        choices={[
          ["", "none (catalogue)"],
          ["none", "none"],
          ["diode", "diode"],
          ["resistor", "resistor"],
          ["zener", "zener and diode"],
        ]}
        set={(next) => put(startOf(next, `${end}>${start}`))}
      />
      {both !== undefined && "resistor" in both && (
        <QuantityField
          title="Its ohms"
          unit="ohms"
          value={both.resistor}
          set={(text) => put(text === "" ? undefined : { resistor: text })}
        />
      )}
      {both !== undefined && "zener" in both && (
        <QuantityField
          title="Its volts"
          unit="volts"
          value={both.zener}
          set={(text) => put(text === "" ? undefined : { ...both, zener: text })}
        />
      )}
      {both !== undefined && "diode" in both && both.diode !== undefined && (
        <LineField
          title="Passes from > to"
          says="anode and cathode: against the current of the coil"
          value={both.diode}
          commit={(text) => {
            return refused(put({ ...both, diode: text.trim() }));
          }}
        />
      )}
    </>
  );
}

function kindOf(given: Given | undefined): string {
  if (given === undefined || given === "none") return given ?? "";
  return "zener" in given ? "zener" : "resistor" in given ? "resistor" : "diode";
}

function textOf(given: Given | undefined): string {
  if (given === undefined || given === "none") return given ?? "";
  const value = "zener" in given ? given.zener : "resistor" in given ? given.resistor : given.diode;
  return `${kindOf(given)} ${value}`;
}
