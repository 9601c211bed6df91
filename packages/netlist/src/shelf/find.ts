import { newLoom } from "../edit/loom.ts";
import { newPart } from "../edit/new-part.ts";
import { resolve } from "../loom/resolve.ts";
import type { Loom } from "../loom/schema.ts";
import { families } from "../parts/families.ts";
import { type ShelfGroup, type ShelfItem, shelf } from "./shelf.ts";

const EMPTY = newLoom();

/** A loom with this one part in it: what it is before anything is said about it. */
export function onlyPart(item: ShelfItem): Loom {
  return newPart(EMPTY, item.family, item.kind, item.definition).loom;
}

const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ");

/** Everything an item can be found by: its title, what it says, kind, family, words of the trade, terminal numbers. */
function wordsOf(item: ShelfItem): string {
  const { title, words } = families[item.family];
  const [part] = resolve(onlyPart(item)).parts;
  const terminals = part?.terminals.flatMap((t) => [t.name, t.says]) ?? [];
  return ` ${plain([item.title, item.says, item.kind ?? "", title, ...words, ...terminals].join(" "))} `;
}

/** Of what was found, the item whose name is nearest to what was typed. */
export function nearestOnShelf(found: readonly ShelfGroup[], text: string): ShelfItem | undefined {
  const asked = plain(text).trim();
  const items = found.flatMap((g) => g.items);
  const name = (item: ShelfItem) => plain(item.title).trim();
  return (
    items.find((i) => name(i) === asked) ??
    items.find((i) => name(i).startsWith(asked)) ??
    items.find((i) => asked.split(" ").every((word) => ` ${name(i)}`.includes(` ${word}`))) ??
    items[0]
  );
}

/** The shelf by what is typed: every word must begin a word of the item. */
export function findOnShelf(text: string): readonly ShelfGroup[] {
  const asked = plain(text).split(" ").filter(Boolean);
  if (asked.length === 0) return shelf;
  return shelf
    .map((group) => ({
      ...group,
      items: group.items.filter((item) => {
        const words = wordsOf(item);
        return asked.every((word) => words.includes(` ${word}`));
      }),
    }))
    .filter((group) => group.items.length > 0);
}
