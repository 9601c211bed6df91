import { type CSSProperties, type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from "react";
import { useTrayHeight } from "./height.ts";

export interface Tab {
  readonly id: string;
  readonly title: string;
  readonly count?: number | undefined;
  readonly body: ReactNode;
  /** It wants more room than the others, and chosen again it fills the page instead of folding. */
  readonly fills?: boolean;
}

interface Props {
  readonly tabs: readonly Tab[];
  readonly shown: string;
  readonly show: (id: string) => void;
  readonly isNarrow: boolean;
  readonly isFilled: boolean;
  readonly fill: (isFilled: boolean) => void;
  /** What is always there, at the right end of the tabs. */
  readonly tools: ReactNode;
}

/**
 * The tray under the sheet: tabs, and one of them open. Folds to its tabs; its upper edge can be dragged; some tabs fill
 * the page, until Esc or the tab again brings the drawing back.
 */
export function Tray({ tabs, shown, show, isNarrow, isFilled, fill, tools }: Props) {
  const [isFolded, fold] = useState(false);
  const tray = useRef<HTMLElement>(null);
  const { height, edge } = useTrayHeight(tray, { isNarrow, isFilled, fill });
  const canFill = tabs.find((t) => t.id === shown)?.fills === true && !isNarrow;
  const choose = (id: string) => {
    const isAgain = id === shown && !isFolded;
    if (isAgain && canFill) fill(!isFilled);
    else if (!isNarrow) fold(isAgain);
    show(id);
  };
  const isFilling = isFilled && canFill;
  useEffect(() => {
    if (!isFilling) return;
    const press = (event: globalThis.KeyboardEvent) => {
      if (event.key === "Escape" && !event.defaultPrevented) fill(false);
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [isFilling, fill]);
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
  const looks = [
    "tray",
    isFolded && !isNarrow && "folded",
    canFill && height === undefined && "tall",
    (isFilling || (isFilled && isNarrow)) && "filled",
  ];
  return (
    <section className={looks.filter(Boolean).join(" ")} ref={tray} style={style} aria-label="Tray">
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
