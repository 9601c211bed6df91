import { analyse } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import * as selecting from "./selecting.ts";

// Which way a contact looks that shares a terminal with others.

/** What stands by itself. That two feeds join is a note, and fuses are another matter. */
const faults = (loom: Loom): readonly string[] =>
  analyse(loom)
    .findings.filter((f) => f.under === undefined && f.severity !== "note" && f.rule !== "unfused")
    .map((f) => `${f.severity} ${f.strength} ${f.id}`);

describe("one of several feeds is selected: nothing is fed backwards", () => {
  test.each([
    ["equal feeds", selecting.equalFeeds],
    ["one behind a switch", selecting.oneBehindSwitch],
    ["by a relay, at its make contact", selecting.relaySelects[0]],
    ["by a relay, at its rest contact", selecting.relaySelects[1]],
    ["three feeds", selecting.threeFeeds],
    ["two selectors in a row", selecting.selectorsInRow],
    ["a bypass, and a load on every net", selecting.selectorBypassed],
    ["a lamp from three places", selecting.lampFromThreePlaces],
    ["on the ground side", selecting.returnSelected],
    ["two feeds that it keeps apart", selecting.joinsBoth("either")],
  ])("%s", (_, loom) => expect(faults(loom)).toEqual([]));
});

describe("and what is", () => {
  test("the selector joins both feeds: each feeds the lamp of the other", () => {
    expect(faults(selecting.joinsBoth("both"))).toEqual([
      "fault certain back-feed:E2+S1",
      "fault certain back-feed:E3+S1",
    ]);
  });

  test("a switch gives a feed on to a lamp that has another: that feeds all before the switch", () => {
    expect(faults(selecting.givesOn("wire"))).toEqual(["fault certain back-feed:E2+S1"]);
    expect(faults(selecting.givesOn("diode"))).toEqual([]);
  });
});
