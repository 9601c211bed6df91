import type { AnyCell } from "./words.ts";

type Word = Extract<AnyCell, string>;
type Mark = "full" | "half" | "empty" | "in" | "out";

const MARKS: { readonly [W in Word]: Mark } = {
  on: "full",
  awake: "full",
  partly: "half",
  asleep: "half",
  off: "empty",
  in: "in",
  held: "in",
  out: "out",
};

/** What a load or a relay does, as a shape: a disc full with a dot, half or empty; a contact closed or open. */
export function CellMark({ word, size = 18 }: { readonly word: Word; readonly size?: number }) {
  const mark = MARKS[word];
  return (
    <svg className={`cell-mark ${mark}`} viewBox="0 0 18 18" width={size} height={size} aria-hidden="true">
      {(mark === "full" || mark === "half" || mark === "empty") && <circle className="disc" cx="9" cy="9" r="7.25" />}
      {mark === "full" && <circle className="dot" cx="9" cy="9" r="2.6" />}
      {mark === "half" && <path className="fill" d="M1.75 9a7.25 7.25 0 0 0 14.5 0z" />}
      {mark === "in" && <path className="blade" d="M9 1v16" />}
      {mark === "in" && <path className="arm" d="M9 4.5v9" />}
      {mark === "out" && <path className="blade" d="M9 1v4M9 13v4M9 13 5.2 5.4" />}
    </svg>
  );
}

const FIRST_DEGREES = -60;
const LAST_DEGREES = 90;

/** The key's dial, its hand in one of so many positions. */
export function Dial({ at, of }: { readonly at: number; readonly of: number }) {
  const turn = FIRST_DEGREES + (of < 2 ? 0 : (at / (of - 1)) * (LAST_DEGREES - FIRST_DEGREES));
  return (
    <svg className="dial" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      <circle cx="8" cy="8" r="6.75" />
      <path d="M8 8V2.6" transform={`rotate(${turn} 8 8)`} />
    </svg>
  );
}
