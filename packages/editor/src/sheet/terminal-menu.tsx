import { asWritten, type Loom, type ResolvedLoom } from "@loomproof/netlist";
import { type KeyboardEvent, useEffect, useRef } from "react";
import type { Size } from "./camera.ts";

interface Props {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly part: string;
  /** The end that the wire has already. */
  readonly from: string;
  /** Where the wire was let go, px of the sheet's frame. */
  readonly at: { readonly x: number; readonly y: number };
  readonly frame: Size;
  readonly take: (terminal: string) => void;
  readonly leave: () => void;
}

/** A wire was let go over a part: to which of its terminals? */
export function TerminalMenu({ loom, resolved, part, from, at, frame, take, leave }: Props) {
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
      style={spotIn(frame, at)}
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

const WIDTH = 240;
const EDGE = 8;

/** Where there is more room: over or under where the wire was let go. */
function spotIn({ width, height }: Size, { x, y }: Props["at"]) {
  const left = Math.max(EDGE, Math.min(x, width - WIDTH - EDGE));
  return y < height / 2
    ? { left, top: y, maxHeight: height - y - EDGE }
    : { left, bottom: height - y, maxHeight: y - EDGE };
}
