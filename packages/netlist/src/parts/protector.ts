import { fuseColdOhms } from "../reference/fuse-ohms.ts";
import { defineFamily, mustWire } from "./family.ts";
import { FROM_MEMORY, quantity } from "./field.ts";

export const protector = defineFamily({
  title: "Fuse",
  summary: "A fuse or fusible link: opens when the current is too large for too long.",
  kinds: ["blade", "bolt-down", "link"],
  letters: () => "F",
  words: ["fuse", "fusible", "breaker", "protection", "blows"],
  fields: {
    rated: quantity("amps", 10, { says: "rated current", standard: "10 A, shown as assumed", source: FROM_MEMORY }),
    ohms: quantity("ohms", undefined, {
      says: "cold resistance; when not given, from its rating",
      standard: "by rating, 75 mV at rated current where no row is published",
      source: "cold resistance rows of a 287 series sheet, as quoted in a workshop reference (read)",
    }),
  },
  harm: () => "none",
  terminals: () => [mustWire("a", "one end"), mustWire("b", "other end")],
});

/** Cold resistance in ohms: as given, else by rating. */
export const protectorOhms = (values: { readonly rated: number; readonly ohms: number | undefined }): number =>
  values.ohms ?? fuseColdOhms(values.rated);
