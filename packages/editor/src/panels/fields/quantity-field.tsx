import { asTyped, type Dimension } from "@loomproof/netlist";
import { LineField, type LineProps } from "./line-field.tsx";
import { refused } from "./refusal.ts";

interface Props extends Omit<LineProps, "commit"> {
  readonly unit: Dimension;
  /** Takes the text as the file writes it, empty for the catalogue's value. Says why not. */
  readonly set: (text: string) => string | undefined;
}

/** A value with its unit. A bare number is asked for its unit. */
export function QuantityField({ unit, set, ...rest }: Props) {
  return (
    <LineField
      {...rest}
      commit={(text) => {
        if (text.trim() === "") return refused(set(""));
        const typed = asTyped(text, unit);
        return typed.kind === "bare" ? { says: "In which unit?", offers: typed.offers } : refused(set(typed.text));
      }}
    />
  );
}
