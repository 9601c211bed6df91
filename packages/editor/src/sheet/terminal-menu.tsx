import { asWritten, type Loom, type ResolvedLoom } from "@loomproof/netlist";
import { type KeyboardEvent, useEffect, useRef } from "react";

interface Props {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly part: string;
  /** The end that the wire has already. */
  readonly from: string;
  /** Where the wire was let go, px of the sheet's frame. */
  readonly at: { readonly x: number; readonly y: number };
  readonly take: (terminal: string) => void;
  readonly leave: () => void;
}

/** A wire was let go over a part: to which of its terminals? */
export function TerminalMenu({ loom, resolved, part, from, at, take, leave }: Props) {
  const list = useRef<HTMLUListElement>(null);
  const terminals = resolved.parts.find((p) => p.id === part)?.terminals ?? [];
  const wired = new Set(loom.wires.flatMap((w) => [w.from, w.to]));
  useEffect(() => list.current?.querySelector("button")?.focus(), []);
  const press = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    event.stopPropagation();
    if (event.key === "Escape") leave();
    if (step === undefined) return;
    event.preventDefault();
    const buttons = [...(list.current?.querySelectorAll("button") ?? [])];
    const now = buttons.indexOf(document.activeElement as HTMLButtonElement);
    buttons[(now + step + buttons.length) % buttons.length]?.focus();
  };
  return (
    <section
      className="terminal-menu"
      style={{ left: at.x, top: at.y }}
      aria-label={`Wire from ${from} to ${part}`}
      onKeyDown={press}
      onPointerDown={(event) => event.stopPropagation()}
    >
      <p>
        Wire from {from} to {part}
      </p>
      <ul ref={list}>
        {terminals.map(({ name, says }) => (
          <li key={name}>
            <button type="button" onClick={() => take(`${part}.${name}`)}>
              <b>{name}</b> {says}
              {wired.has(asWritten(loom, `${part}.${name}`)) && <i> wired</i>}
            </button>
          </li>
        ))}
      </ul>
      <button type="button" className="word" onClick={leave}>
        No wire
      </button>
    </section>
  );
}
