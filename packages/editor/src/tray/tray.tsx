import { type CSSProperties, type KeyboardEvent, type ReactNode, useRef, useState } from "react";
import { useTrayHeight } from "./height.ts";

export interface Tab {
  readonly id: string;
  readonly title: string;
  readonly count?: number | undefined;
  readonly body: ReactNode;
}

interface Props {
  readonly tabs: readonly Tab[];
  readonly shown: string;
  readonly show: (id: string) => void;
  readonly isNarrow: boolean;
  /** What is always there, at the right end of the tabs. */
  readonly tools: ReactNode;
}

/** The tray under the sheet: tabs, and one of them open. Folds to its tabs; its upper edge can be dragged. */
export function Tray({ tabs, shown, show, isNarrow, tools }: Props) {
  const [isFolded, fold] = useState(false);
  const tray = useRef<HTMLElement>(null);
  const { height, edge } = useTrayHeight(tray, isNarrow);
  const choose = (id: string) => {
    if (!isNarrow) fold(id === shown && !isFolded);
    show(id);
  };
  const turn = (event: KeyboardEvent) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const next = tabs[(tabs.findIndex((t) => t.id === shown) + step + tabs.length) % tabs.length];
    if (next === undefined) return;
    show(next.id);
    document.getElementById(`tab-${next.id}`)?.focus();
  };
  const style = height === undefined ? undefined : ({ "--tray": height } as CSSProperties);
  return (
    <section className={`tray${isFolded && !isNarrow ? " folded" : ""}`} ref={tray} style={style} aria-label="Tray">
      <button type="button" className="edge" {...edge}>
        <span />
      </button>
      <div className="tab-line">
        <div className="tabs" role="tablist" aria-label="Tray" onKeyDown={turn}>
          {tabs.map((t) => (
            <button
              type="button"
              role="tab"
              key={t.id}
              id={`tab-${t.id}`}
              aria-controls={`panel-${t.id}`}
              aria-selected={t.id === shown}
              tabIndex={t.id === shown ? 0 : -1}
              onClick={() => choose(t.id)}
            >
              <span className="label" data-bold={t.title}>
                {t.title}
              </span>
              {t.count !== undefined && <span className="count"> {t.count}</span>}
            </button>
          ))}
        </div>
        {tools}
      </div>
      {tabs.map((t) => (
        <div
          key={t.id}
          className={`panel ${t.id}`}
          role="tabpanel"
          id={`panel-${t.id}`}
          aria-labelledby={`tab-${t.id}`}
          hidden={t.id !== shown || (isFolded && !isNarrow)}
        >
          {t.body}
        </div>
      ))}
    </section>
  );
}
