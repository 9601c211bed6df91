import { asInFile, withItem } from "@loomproof/netlist";
import { type KeyboardEvent, useId, useState } from "react";
import { Frame } from "../fields/frame.tsx";
import type { Desk } from "./desk.ts";

interface Props {
  readonly desk: Desk;
  readonly section: "parts" | "wires" | "definitions";
  readonly id: string;
}

/** The last resort: the lines of the file, for what no form has a field for. */
export function AsInFile({ desk: { loom, edit }, section, id }: Props) {
  const field = useId();
  const text = asInFile(loom, section, id);
  const [draft, type] = useState<string>();
  const [error, tell] = useState<string>();
  const [seen, see] = useState(text);
  const end = () => {
    type(undefined);
    tell(undefined);
  };
  if (seen !== text) {
    see(text);
    end();
  }
  const take = () => {
    if (draft === undefined || draft.trim() === text) return end();
    const read = withItem(loom, section, id, draft);
    const why = read.ok ? edit(`${id}: as typed`, () => read.loom) : read.says;
    if (why === undefined) end();
    else tell(why);
  };
  const press = (event: KeyboardEvent) => {
    if (event.key === "Escape" && draft !== undefined) {
      event.stopPropagation();
      end();
    } else if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) take();
  };
  return (
    <details className="as-in-file">
      <summary>{id} as in the file</summary>
      <Frame id={field} title="" error={error}>
        <textarea
          id={field}
          aria-label={`${id} as in the file`}
          value={draft ?? text}
          rows={Math.min(24, 2 + (draft ?? text).split("\n").length)}
          spellCheck={false}
          aria-invalid={error !== undefined}
          aria-describedby={error === undefined ? undefined : `${field}-says`}
          onChange={(e) => {
            type(e.target.value);
            tell(undefined);
          }}
          onKeyDown={press}
          onBlur={take}
        />
      </Frame>
    </details>
  );
}
