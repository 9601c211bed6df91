import type { Dimension, FormField } from "@loomproof/netlist";
import { QuantityField } from "../fields/quantity-field.tsx";
import { capital } from "../words.ts";
import { catalogueOf, keyWords } from "./words.ts";

type Bound = string | null;

interface Props {
  readonly field: FormField;
  readonly unit: Dimension;
  readonly value: unknown;
  readonly set: (value: unknown, text: string) => string | undefined;
}

/** Least and most of a quantity; what is left open is the catalogue's. One value twice is one value. */
export function SpanField({ field, unit, value, set }: Props) {
  const [least, most] = boundsOf(value);
  const { placeholder, mark } = catalogueOf(field);
  const put = (a: Bound, b: Bound) => {
    const text = a === b ? (a ?? "") : [a ?? "catalogue", b ?? "catalogue"].join(" to ");
    return set(a === b ? (a ?? undefined) : [a, b], text);
  };
  const name = capital(keyWords(field.key));
  const given = (text: string): Bound => (text === "" ? null : text);
  const isOpen = least === null && most === null;
  return (
    <fieldset className="span" title={`${field.says}; catalogue: ${placeholder}`}>
      <QuantityField
        title={`${name}, least`}
        unit={unit}
        value={least ?? ""}
        placeholder={isOpen ? placeholder : "catalogue"}
        says={field.says}
        mark={isOpen ? mark : undefined}
        set={(text) => put(given(text), most)}
      />
      <QuantityField
        title="most"
        unit={unit}
        value={most ?? ""}
        placeholder={isOpen ? "" : "catalogue"}
        says={field.says}
        set={(text) => put(least, given(text))}
      />
    </fieldset>
  );
}

function boundsOf(value: unknown): readonly [Bound, Bound] {
  if (typeof value === "string") return [value, value];
  return Array.isArray(value) ? [(value[0] as Bound) ?? null, (value[1] as Bound) ?? null] : [null, null];
}
