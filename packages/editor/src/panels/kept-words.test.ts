import { expect, test } from "vitest";
import { NOTHING_KEPT } from "../session/keeper.ts";
import { placeWords, whenWords } from "./kept-words.ts";

const edited = { example: "marigold", isFresh: false, isUnsaved: true, saved: undefined, keeping: NOTHING_KEPT };

test("the words beside the name say where the loom is, and never that it is kept when it is not", () => {
  expect(placeWords(edited)).toBe("not saved to a file; kept in this browser");
  for (const trouble of ["isApart", "hasFailed", "isLate"] as const)
    expect(placeWords({ ...edited, keeping: { ...NOTHING_KEPT, [trouble]: true } })).not.toContain(
      "kept in this browser",
    );
  expect(placeWords({ ...edited, isFresh: true })).toBe("an invented example");
  const saved = { position: 2, how: "file" } as const;
  expect(placeWords({ ...edited, saved })).toBe("changes not saved to its file; kept in this browser");
  expect(placeWords({ ...edited, saved, isUnsaved: false })).toBe("saved to its file");
});

test("days are told as a person does", () => {
  const now = new Date(2026, 10, 26, 0, 30).getTime();
  expect(whenWords(new Date(2026, 10, 26, 0, 5).getTime(), now)).toBe("today, 00:05");
  expect(whenWords(new Date(2026, 10, 25, 23, 50).getTime(), now)).toBe("yesterday, 23:50");
  expect(whenWords(new Date(2026, 10, 3, 12, 0).getTime(), now)).toBe("3 November 2026");
});
