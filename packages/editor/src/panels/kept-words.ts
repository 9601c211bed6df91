import type { DraftHead } from "../session/draft.ts";
import type { OpenDocument } from "../session/open-document.ts";

type Standing = Pick<OpenDocument, "example" | "isFresh" | "isUnsaved" | "saved" | "keeping">;

/** Where the open loom is kept, in a few words that are true. */
export function placeWords({ example, isFresh, isUnsaved, saved, keeping }: Standing): string {
  if (isFresh && saved === undefined) return example === undefined ? "not saved to a file" : "an invented example";
  if (!isUnsaved) return SAVED[saved?.how ?? "read"];
  const file = saved === undefined ? "not saved to a file" : "changes not saved to its file";
  return `${file}; ${keepingWords(keeping)}`;
}

const SAVED = {
  read: "read from this computer",
  file: "saved to its file",
  download: "saved as a download",
} as const;

function keepingWords({ isApart, hasFailed, isLate }: Standing["keeping"]): string {
  if (isApart) return "not kept, another tab has edited it";
  if (hasFailed) return "this browser keeps nothing";
  return isLate ? "not kept yet" : "kept in this browser";
}

const DAY = 86_400_000;
const time = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" });
const date = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "long", year: "numeric" });

/** "today, 9:58", "yesterday, 17:03", "3 November 2026". */
export function whenWords(then: number, now: number): string {
  const days = Math.round((midnight(now) - midnight(then)) / DAY);
  if (days > 1 || days < 0) return date.format(then);
  return `${days === 0 ? "today" : "yesterday"}, ${time.format(then)}`;
}

const midnight = (at: number): number => new Date(at).setHours(0, 0, 0, 0);

/** "mine.loom.json, edited today, 9:58". */
export function headWords({ name, steps, edited, saved, position }: DraftHead, now: number): string {
  const did = steps === 0 ? "opened" : "edited";
  const file = saved?.position === position ? "" : "; not saved to a file";
  return `${name === "" ? "" : `${name}, `}${did} ${whenWords(edited, now)}${file}`;
}

export const nameOf = ({ title, name }: Pick<DraftHead, "title" | "name">): string =>
  title || name || "Loom without a name";
