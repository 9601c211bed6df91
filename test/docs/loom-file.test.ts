import { readFileSync } from "node:fs";
import { analyse } from "@loomproof/analyzer";
import { type Loom, parse } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { asMeant } from "../history/claims.ts";

const page = readFileSync(new URL("../../docs/loom-file.md", import.meta.url), "utf8");
const [, json = ""] = /```json\n([\s\S]*?)```/.exec(page) ?? [];
const [, intents = ""] = /```json intents\n([\s\S]*?)```/.exec(page) ?? [];
const [, meant = ""] = /```json meant\n([\s\S]*?)```/.exec(page) ?? [];
const verdicts = [...page.matchAll(/^- `([a-z]+)`: (met|not met)/gm)].map(([, id, verdict]) => ({ id, verdict }));
const told = [...page.matchAll(/^- `([a-z-]+:[\w+]+)`$/gm)].map((m) => m[1]);

const read = (text: string): Loom => {
  const result = parse(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.loom;
};
const found = (text: string) => analyse(read(text)).findings.filter((f) => f.severity !== "note");

describe("the guide to the loom file", () => {
  test("its loom gives the findings that it tells", () => {
    expect(told.length).toBeGreaterThan(0);
    expect(found(json).map((f) => f.id)).toEqual(told);
  });

  test("its cure leaves nothing to find", () => {
    const cured = json.replace('"id": "W3", "from": "K1.87"', '"id": "W3", "from": "F1.b"');
    expect(cured).not.toBe(json);
    expect(found(cured)).toEqual([]);
  });

  test("its intents are met or not as it says, with the mistake; cured, all but one that forbids it", () => {
    const wanting = json.replace(/\n\]\n\}\s*$/, `\n],\n${intents}}`);
    const seen = (text: string) => analyse(read(text)).intents.map(({ id, verdict }) => ({ id, verdict }));
    const byId = (list: readonly { readonly id?: string | undefined }[]) =>
      list.toSorted((a, b) => ((a.id ?? "") < (b.id ?? "") ? -1 : 1));
    expect(verdicts.length).toBe(5);
    expect(byId(seen(wanting))).toEqual(byId(verdicts));
    const cured = wanting.replace('"id": "W3", "from": "K1.87"', '"id": "W3", "from": "F1.b"');
    // Then the fan runs by its relay.
    expect(seen(cured).filter((i) => i.verdict !== "met")).toEqual([{ id: "apart", verdict: "not met" }]);
  });

  test("what it says is meant is proved of a pump wired so, and noted where nobody says it", () => {
    const claims = JSON.parse(`{${meant}}`);
    const ids = (loom: Loom) =>
      analyse(loom)
        .findings.filter((f) => f.rule === "self-hold")
        .map((f) => f.id);
    expect(ids({ ...asMeant, ...claims })).toEqual([]);
    expect(ids({ ...asMeant, meant: [] })).toEqual(["self-hold:K1"]);
  });
});
