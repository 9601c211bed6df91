import { same } from "../change/entries.ts";
import { jsonText, type ReadLine, type TextForm } from "../parts/text-form.ts";

/** The form in which a value can be shown and read back: its own, else as in the file. */
export function formFor(raw: unknown, form: TextForm): TextForm {
  if (raw === undefined) return form;
  const again = form.read(form.write(raw));
  return again.ok && same(again.value, raw) ? form : jsonText;
}

/** A line as the file has it; an empty one is the catalogue's value. */
export const readLine = (line: string, form: TextForm): ReadLine =>
  line.trim() === "" ? { ok: true, value: undefined } : form.read(line.trim());
