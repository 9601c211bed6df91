import { findOnShelf, nearestOnShelf, type ShelfItem, shelf } from "@loomproof/netlist";
import { type KeyboardEvent, useMemo, useRef, useState } from "react";
import type { PageTheme } from "../../sheet/drawing.tsx";
import { FindField } from "../fields/find-field.tsx";
import { step } from "../fields/grid-step.ts";
import { InkSvg } from "./ink-svg.tsx";
import { pictured } from "./pictured.ts";
import { useCarry } from "./use-carry.ts";

interface Props {
  readonly theme: PageTheme;
  /** Puts it on the sheet where there is room. */
  readonly place: (item: ShelfItem) => void;
  /** It is being dragged: the sheet takes over from here. */
  readonly carry: (item: ShelfItem, event: PointerEvent) => void;
}

const SCALE = 0.6;

/** Parts to take, in the order in which current flows: typed for, walked with arrows, placed by Enter or dragged. */
export function Shelf({ theme, place, carry }: Props) {
  const [text, type] = useState("");
  const groups = useMemo(() => findOnShelf(text), [text]);
  const items = groups.flatMap((g) => g.items);
  const [current, walkTo] = useState<string>();
  const active = items.find((i) => i.id === current) ?? nearestOnShelf(groups, text);
  const list = useRef<HTMLDivElement>(null);
  const field = useRef<HTMLInputElement>(null);
  const symbols = useMemo(() => symbolsIn(theme), [theme]);
  const hold = useCarry(carry);
  const buttons = () => [...(list.current?.querySelectorAll<HTMLElement>(".shelf-item") ?? [])];

  const walk = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const all = buttons();
    const at = active === undefined ? -1 : items.indexOf(active);
    const next = step(all, at, event.key);
    if (next !== undefined) {
      event.preventDefault();
      if (event.key === "ArrowUp" && next === at) field.current?.focus();
      else all[next]?.focus();
    } else if (event.key.length === 1 && event.key !== " ") field.current?.focus();
  };
  return (
    <div className="shelf-room">
      <div className="find">
        <FindField
          field={field}
          title="Find a part on the shelf"
          placeholder="pump, fuse, 87a …"
          text={text}
          type={(typed) => {
            type(typed);
            walkTo(undefined);
          }}
          down={() => buttons()[0]?.focus()}
          enter={() => active !== undefined && place(active)}
        />
        <p aria-live="polite">
          {text === "" || active === undefined
            ? "Drag a part onto the sheet, or press Enter to place it."
            : `${items.length} found. Enter places: ${active.title}.`}
        </p>
      </div>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: arrows walk between the buttons inside. */}
      <div className="shelf-groups" ref={list} onKeyDown={walk}>
        {groups.map((group) => (
          <section key={group.title} aria-label={group.title} className="shelf-group">
            {group.items.map((item, i) => (
              <div key={item.id} className="shelf-cell">
                {i === 0 && <h3>{group.title}</h3>}
                <button
                  type="button"
                  className={`shelf-item${text !== "" && item === active ? " first" : ""}`}
                  title={item.says}
                  tabIndex={item === active ? 0 : -1}
                  {...hold(item)}
                  onFocus={() => walkTo(item.id)}
                  onDoubleClick={() => place(item)}
                  onClick={(event) => {
                    // From the keyboard or a screen reader; a mouse drags, or clicks twice.
                    if (event.detail === 0) place(item);
                  }}
                >
                  <span className="symbol">{symbols.get(item.id)}</span>
                  <span className="title">{item.title}</span>
                </button>
              </div>
            ))}
          </section>
        ))}
        {items.length === 0 && <p className="hint">Nothing on the shelf is called “{text}”. Try a plainer word.</p>}
      </div>
    </div>
  );
}

const symbolsIn = (theme: PageTheme) =>
  new Map(
    shelf
      .flatMap((g) => g.items)
      .map((item) => {
        const picture = pictured(item, theme);
        return [item.id, picture && <InkSvg key={item.id} picture={picture} scale={SCALE} />];
      }),
  );
