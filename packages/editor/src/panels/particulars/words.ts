import type { FormField } from "@loomproof/netlist";

/** A key of the file as words: "releaseTime" is "release time". */
export const keyWords = (key: string): string => key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);

/** Name of a step: "K3: release 2.4 V", "K3: release as in the catalogue". */
export const stepName = (id: string, key: string, text: string): string =>
  `${id}: ${keyWords(key)} ${text.trim() === "" ? "as in the catalogue" : text}`;

/** What holds while a field is empty, and where that comes from. */
export function catalogueOf({ standard, source }: FormField): {
  readonly placeholder: string;
  readonly mark: string | undefined;
} {
  return standard === "none"
    ? { placeholder: "not given", mark: undefined }
    : { placeholder: standard, mark: `catalogue: ${source}` };
}
