import "fake-indexeddb/auto";
import { setTitle, sketch, write } from "@loomproof/netlist";
import fc from "fast-check";
import { beforeEach, expect, test } from "vitest";
import { type Draft, draftOf, isUnsaved, newDraft, withHistory, withSaved } from "./draft.ts";
import { type DraftStore, draftStore } from "./drafts.ts";
import { edited, redone, undone } from "./history.ts";
import { type Keeper, keeperOf } from "./keeper.ts";

const loom = sketch({ parts: { "G1 battery": {}, "E1 lamp": {} }, wires: ["G1.+ E1.a", "E1.b G1.-"] });
const fresh = (id: string): Draft =>
  newDraft({ id, name: "mine.loom.json", saved: undefined, example: undefined, edited: 0 }, loom);
const titled = (draft: Draft, title: string): Draft =>
  withHistory(draft, edited(draft.history, title, setTitle(draft.history.loom, title)), 1);

let store: DraftStore;
let n = 0;
beforeEach(() => {
  store = draftStore(`drafts of test ${++n}`);
});

/** A tab of the browser with its own keeper. */
function tab(name: string, read?: Parameters<typeof keeperOf>[2]): Keeper {
  let written = 0;
  return keeperOf(
    store,
    () => `${name}${++written}`,
    read,
    () => {},
  );
}

async function reopened(name: string, id: string): Promise<{ readonly keeper: Keeper; readonly draft: Draft }> {
  const record = await store.read(id);
  const draft = record && draftOf(record);
  if (record === undefined || draft === undefined) throw new Error(`no draft ${id}`);
  return { keeper: tab(name, { draft, rev: record.head.rev }), draft };
}

const moves = fc.array(fc.constantFrom("edit", "undo", "redo", "save", "wait", "crash"), {
  minLength: 40,
  maxLength: 40,
});

test("after any mixture of edits, undo, redo, saving and crashes, the draft comes back as it was kept", async () => {
  await fc.assert(
    fc.asyncProperty(moves, async (list) => {
      const id = `d${++n}`;
      let draft = fresh(id);
      let keeper = tab("a");
      for (const [i, move] of list.entries()) {
        const { history } = draft;
        if (move === "edit") draft = titled(draft, `Title ${i}`);
        else if (move === "undo") draft = withHistory(draft, undone(history), i);
        else if (move === "redo") draft = withHistory(draft, redone(history), i);
        else if (move === "save") draft = withSaved(draft, draft, "saved.loom.json", "file", i);
        if (move !== "wait" && move !== "crash") keeper.keep(draft);
        else {
          keeper.keep(draft);
          await keeper.idle();
          expect(keeper.keeping().kept).toBe(draft);
        }
        if (move !== "crash") continue;
        const again = await reopened(`t${i}`, id);
        expect(again.draft).toEqual({ ...draft, history: { ...draft.history, loom: again.draft.history.loom } });
        expect(write(again.draft.history.loom)).toBe(write(draft.history.loom));
        draft = again.draft;
        keeper = again.keeper;
      }
    }),
    { numRuns: 25, seed: 5 },
  );
});

test("a tab never writes over what another tab has written", async () => {
  const first = tab("a");
  const one = titled(fresh("d"), "One");
  first.keep(one);
  await first.idle();
  const { keeper: second, draft } = await reopened("b", "d");
  second.keep(titled(draft, "Two"));
  await second.idle();
  expect(second.keeping().isApart).toBe(false);
  first.keep(titled(one, "Three"));
  await first.idle();
  expect(first.keeping()).toMatchObject({ isApart: true, kept: one });
  expect((await reopened("c", "d")).draft.history.loom.title).toBe("Two");
});

test("a look finds what another tab has written, before anything is edited", async () => {
  const first = tab("a");
  const one = titled(fresh("d"), "One");
  first.keep(one);
  await first.idle();
  await first.look();
  expect(first.keeping().isApart).toBe(false);
  const { keeper: second, draft } = await reopened("b", "d");
  second.keep(titled(draft, "Two"));
  await second.idle();
  await first.look();
  expect(first.keeping().isApart).toBe(true);
});

test("two tabs that begin the same edit at the same time: one of them writes", async () => {
  const first = tab("a");
  first.keep(titled(fresh("d"), "One"));
  await first.idle();
  const [b, c] = [await reopened("b", "d"), await reopened("c", "d")];
  b.keeper.keep(titled(b.draft, "B"));
  c.keeper.keep(titled(c.draft, "C"));
  await Promise.all([b.keeper.idle(), c.keeper.idle()]);
  expect([b, c].map((t) => t.keeper.keeping().isApart).sort()).toEqual([false, true]);
});

test("a draft deleted in another tab is kept again, with all its steps, when it is edited", async () => {
  const first = tab("a");
  const one = titled(fresh("d"), "One");
  first.keep(one);
  await first.idle();
  await store.remove("d");
  expect([await store.list(), await store.read("d")]).toEqual([[], undefined]);
  first.keep(titled(one, "Two"));
  await first.idle();
  const { draft } = await reopened("b", "d");
  expect(draft.history.past.map((s) => s.says)).toEqual(["One", "Two"]);
});

test("when the browser refuses, nothing is said to be kept; when it takes something again, all is", async () => {
  let isFull = true;
  const full: DraftStore = {
    ...store,
    commit: (...args) => (isFull ? Promise.reject(new Error("full")) : store.commit(...args)),
  };
  const keeper = keeperOf(
    full,
    () => `a${++n}`,
    undefined,
    () => {},
  );
  const one = titled(fresh("d"), "One");
  keeper.keep(one);
  await keeper.idle();
  expect(keeper.keeping()).toMatchObject({ kept: undefined, hasFailed: true });
  isFull = false;
  const two = titled(one, "Two");
  keeper.keep(two);
  await keeper.idle();
  expect(keeper.keeping()).toMatchObject({ kept: two, hasFailed: false });
  expect((await reopened("b", "d")).draft.history.past).toHaveLength(2);
});

test("unsaved is where the history stands against what was saved, and a lost way back never reads as saved", () => {
  const two = titled(titled(fresh("d"), "One"), "Two");
  const saved = withSaved(two, two, "a.loom.json", "file", 1);
  expect(isUnsaved(saved)).toBe(false);
  const back = withHistory(saved, undone(saved.history), 2);
  expect(isUnsaved(back)).toBe(true);
  expect(isUnsaved(withHistory(back, redone(back.history), 3))).toBe(false);
  const other = titled(back, "Another");
  expect([other.history.past.length, isUnsaved(other), other.saved]).toEqual([2, true, undefined]);
  expect(isUnsaved(fresh("d"))).toBe(true);
  // Edited while the file was being written.
  expect(isUnsaved(withSaved(titled(two, "Three"), two, "a.loom.json", "file", 4))).toBe(true);
  expect(
    withSaved(titled(withHistory(two, undone(two.history), 5), "Other"), two, "a.loom.json", "file", 6).saved,
  ).toBeUndefined();
});
