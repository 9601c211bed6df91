import type { Loom, ResolvedLoom } from "@loomproof/netlist";
import { type KeyboardEvent, useMemo, useRef, useState } from "react";
import type { Picked } from "../../session/editing.ts";
import { FindField } from "../fields/find-field.tsx";
import { entriesOf, entriesWith } from "./entries.ts";

interface Props {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly picked: Picked | undefined;
  readonly pick: (picked: Picked | undefined) => void;
  readonly remove: (picked: Picked) => void;
  /** Shows the values of what is picked, with the keyboard in the field of its name. */
  readonly toName: () => void;
}

/** A longer list is narrowed by typing. */
const MOST = 400;

/** Everything on the sheet as a list: the way there without eyes or mouse. */
export function Outline({ loom, resolved, picked, pick, remove, toName }: Props) {
  const [text, type] = useState("");
  const entries = useMemo(() => entriesOf(loom, resolved), [loom, resolved]);
  const found = useMemo(() => entriesWith(entries, text), [entries, text]);
  const shown = found.slice(0, MOST);
  const list = useRef<HTMLUListElement>(null);
  const field = useRef<HTMLInputElement>(null);
  const at = Math.max(
    0,
    shown.findIndex((e) => e.picked.kind === picked?.kind && e.picked.id === picked.id),
  );
  const focus = (n: number) => {
    const buttons = list.current?.querySelectorAll("button") ?? [];
    buttons[Math.max(0, Math.min(buttons.length - 1, n))]?.focus();
  };
  const walk = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const buttons = [...(list.current?.querySelectorAll("button") ?? [])];
    const now = buttons.indexOf(document.activeElement as HTMLButtonElement);
    const entry = shown[now];
    const to = { ArrowDown: now + 1, ArrowUp: now - 1, Home: 0, End: shown.length - 1 }[event.key];
    if (to !== undefined) {
      event.preventDefault();
      if (to < 0) field.current?.focus();
      else focus(to);
    } else if (event.key === "Delete" && entry !== undefined) {
      event.preventDefault();
      remove(entry.picked);
      // The next of the list stands there now.
      requestAnimationFrame(() => focus(now));
    } else if (event.key === "F2" && entry !== undefined) {
      event.preventDefault();
      pick(entry.picked);
      toName();
    } else if (event.key.length === 1 && event.key !== " ") field.current?.focus();
  };
  return (
    <div className="outline-room">
      <div className="find">
        <FindField
          field={field}
          title="Find in the outline"
          placeholder="K3, fuel, W9 …"
          text={text}
          type={type}
          down={() => focus(0)}
        />
        <p aria-live="polite">
          {found.length === entries.length
            ? `${resolved.parts.length} parts, ${resolved.wires.length} wires.`
            : `${found.length} found.`}
          {found.length > MOST && ` The first ${MOST} stand here.`}
        </p>
        <p>Enter shows its values, F2 renames, Delete deletes.</p>
      </div>
      <ul className="entries" ref={list} onKeyDown={walk} aria-label="Parts and wires">
        {shown.map((e, i) => (
          <li key={`${e.picked.kind} ${e.name}`}>
            <button
              type="button"
              tabIndex={i === at ? 0 : -1}
              aria-current={e.picked.id === picked?.id ? "true" : undefined}
              onClick={() => {
                pick(e.picked);
                toName();
              }}
            >
              <b>{e.name}</b>
              <span>{e.says}</span>
              <span>{e.joined}</span>
            </button>
          </li>
        ))}
        {shown.length === 0 && <li className="hint">Nothing here is called “{text}”.</li>}
      </ul>
    </div>
  );
}
