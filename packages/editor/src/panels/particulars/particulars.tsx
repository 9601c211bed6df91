import type { Loom, ResolvedLoom } from "@loomproof/netlist";
import { useMemo, useState } from "react";
import type { Edit, Picked } from "../../session/editing.ts";
import { terminalChoices } from "../fields/terminals.ts";
import type { Desk } from "./desk.ts";
import { PartForm } from "./part-form.tsx";
import { WireForm } from "./wire-form.tsx";

interface Props {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly picked: Picked | undefined;
  readonly pick: (picked: Picked | undefined) => void;
  readonly edit: Edit;
  /** Takes what is picked away, and tells what goes with it. */
  readonly remove: (picked: Picked) => void;
  readonly turn?: (() => void) | undefined;
  readonly mirror?: (() => void) | undefined;
}

/** The values of what is picked, to be read and changed. */
export function Particulars({ loom, resolved, picked, pick, edit, remove, turn, mirror }: Props) {
  const terminals = useMemo(() => terminalChoices(loom, resolved), [loom, resolved]);
  const [named, name] = useState<{ readonly id: string; readonly key: string }>();
  const key = named !== undefined && named.id === picked?.id ? named.key : picked?.id;
  const renamed = (to: Picked) => {
    name({ id: to.id, key: key ?? to.id });
    pick(to);
  };
  const desk: Desk = { loom, resolved, pick, edit, renamed, terminals };
  const part = picked?.kind === "part" ? resolved.parts.find((p) => p.id === picked.id) : undefined;
  const wire = picked?.kind === "wire" ? loom.wires.find((w) => w.id === picked.id) : undefined;
  if (picked === undefined || (part === undefined && wire === undefined))
    return (
      <div className="hint">
        <p>Pick a part or a wire, on the sheet or in the outline: its values stand here.</p>
      </div>
    );
  const words = (
    <div className="deeds">
      {turn && part && (
        <button type="button" className="word" onClick={turn}>
          Turn
        </button>
      )}
      {mirror && part && (
        <button type="button" className="word" onClick={mirror}>
          Mirror
        </button>
      )}
      <button
        type="button"
        className="word"
        onClick={() => {
          remove(picked);
          // The button goes with the form; the keyboard stays by.
          requestAnimationFrame(() => document.getElementById("tab-particulars")?.focus());
        }}
      >
        Delete
      </button>
    </div>
  );
  return part !== undefined ? (
    <PartForm key={key} desk={desk} part={part} deeds={words} />
  ) : (
    wire && <WireForm key={key} desk={desk} wire={wire} deeds={words} />
  );
}
