import type { FormField } from "@loomproof/netlist";
import { ChoiceField } from "../fields/choice-field.tsx";
import { LineField } from "../fields/line-field.tsx";
import { QuantityField } from "../fields/quantity-field.tsx";

type Given =
  | "none"
  | { readonly diode: string }
  | { readonly resistor: string }
  | { readonly zener: string; readonly diode?: string };

interface Props {
  readonly field: FormField;
  readonly value: unknown;
  readonly set: (value: unknown, text: string) => string | undefined;
}

/** A sensible start of each, from the coil's usual terminals [common practice, no source]. */
const STARTS: Readonly<Record<string, Given | undefined>> = {
  "": undefined,
  none: "none",
  diode: { diode: "85>86" },
  resistor: { resistor: "680 ohm" },
  zener: { zener: "24 V", diode: "85>86" },
};

/** What is fitted across a coil: which, and its one value. */
export function SuppressionField({ field, value, set }: Props) {
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
        set={(next) => put(STARTS[next])}
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
            const why = put({ ...both, diode: text.trim() });
            return why === undefined ? undefined : { says: why };
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
