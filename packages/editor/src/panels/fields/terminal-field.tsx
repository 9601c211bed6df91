import { type KeyboardEvent, useId, useRef, useState } from "react";
import { Frame } from "./frame.tsx";
import { matching, type TerminalChoice } from "./terminals.ts";

interface Props {
  readonly title: string;
  readonly says?: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly choices: readonly TerminalChoice[];
  /** Takes a terminal, or says why not. */
  readonly set: (terminal: string) => string | undefined;
  readonly isBare?: boolean;
}

const ROOM = 216;

/** A terminal by its name or by what it is: type "K1.86" or "coil main", walk with arrows, Enter takes it. */
export function TerminalField({ title, says, value, placeholder, choices, set, isBare = false }: Props) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const [draft, type] = useState<string>();
  const [at, walkTo] = useState(0);
  const [isOpen, open] = useState(false);
  const [error, tell] = useState<string>();
  const found = isOpen ? matching(choices, draft ?? "") : [];
  const current = found[at] ?? found[0];
  const shut = () => {
    open(false);
    type(undefined);
  };
  const take = (terminal: string) => {
    const why = terminal === value ? undefined : set(terminal);
    tell(why);
    shut();
  };
  const press = (event: KeyboardEvent) => {
    const way = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (way !== undefined) {
      event.preventDefault();
      if (isOpen) walkTo((n) => (Math.min(n, found.length - 1) + way + found.length) % Math.max(1, found.length));
      open(true);
    } else if (event.key === "Enter" && isOpen) {
      event.preventDefault();
      if (current !== undefined) take(current.text);
      else tell(`No terminal of this loom is called “${draft ?? ""}”.`);
    } else if (event.key === "Escape" && (isOpen || draft !== undefined)) {
      event.preventDefault();
      event.stopPropagation();
      shut();
      tell(undefined);
    }
  };
  return (
    <Frame id={id} title={isBare ? "" : title} says={says} error={error}>
      <input
        ref={field}
        type="text"
        id={id}
        role="combobox"
        value={draft ?? value}
        placeholder={placeholder}
        spellCheck={false}
        autoComplete="off"
        aria-label={isBare ? title : undefined}
        aria-expanded={isOpen}
        aria-controls={`${id}-list`}
        aria-description={says}
        aria-autocomplete="list"
        aria-activedescendant={isOpen && current ? `${id}-${current.text}` : undefined}
        aria-invalid={error !== undefined}
        aria-describedby={error === undefined ? undefined : `${id}-says`}
        onChange={(e) => {
          type(e.target.value);
          walkTo(0);
          open(true);
          tell(undefined);
        }}
        onClick={() => open(true)}
        onKeyDown={press}
        onBlur={shut}
      />
      {isOpen && (
        <div id={`${id}-list`} role="listbox" aria-label={title} className="popup" style={spotOver(field.current)}>
          {found.map((c) => (
            <div
              key={c.text}
              id={`${id}-${c.text}`}
              role="option"
              tabIndex={-1}
              aria-selected={c === current}
              ref={c === current ? intoView : undefined}
              // Before the field is left, which would shut the list.
              onPointerDown={(event) => {
                event.preventDefault();
                take(c.text);
              }}
            >
              <b>{c.text}</b> {c.says}
            </div>
          ))}
          {found.length === 0 && <p>Nothing is called so.</p>}
        </div>
      )}
    </Frame>
  );
}

const intoView = (item: HTMLElement | null) => item?.scrollIntoView({ block: "nearest" });

/** The tray is low: the list goes where there is room, and lies over everything. */
function spotOver(field: HTMLElement | null) {
  if (field === null) return {};
  const { left, top, bottom, width } = field.getBoundingClientRect();
  const below = window.innerHeight - bottom;
  const side = below > ROOM ? { top: bottom + 2 } : { bottom: window.innerHeight - top + 2 };
  return { left, minWidth: width, maxHeight: ROOM, ...side };
}
