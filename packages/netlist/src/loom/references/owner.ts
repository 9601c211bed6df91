import type { Path, Trouble } from "../problem.ts";
import type { FoundItems } from "../shape.ts";
import { mustBe } from "../words.ts";
import { inputTroubles } from "./inputs.ts";
import { type Known, mustName } from "./known.ts";

/** What the owner says: intents and what is meant to seal itself in. */
export function* ownerTroubles(known: Known, { intents, meant }: FoundItems): Generator<Trouble> {
  for (const { at, item } of intents) {
    if (item === undefined) continue;
    const path = ["intents", at];
    for (const key of ["load", "battery"] as const)
      if (item[key] !== undefined) yield* mustBePart(known, [...path, key], item[key]);
    for (const [i, id] of (item.neverWith ?? []).entries()) yield* mustBePart(known, [...path, "neverWith", i], id);
    for (const key of ["onOnlyWhen", "onWhen", "when"] as const)
      for (const [i, one] of (item[key] ?? []).entries()) yield* inputTroubles(known, [...path, key, i], one);
    if (item.after !== undefined) yield* inputTroubles(known, [...path, "after"], item.after);
  }
  for (const { at, item } of meant) {
    if (item === undefined) continue;
    const path = ["meant", at];
    yield* sealTroubles(known, path, item["seal-in"], item.through);
    for (const key of ["set", "clear"] as const)
      for (const [i, one] of (item[key] ?? []).entries()) yield* inputTroubles(known, [...path, key, i], one);
  }
}

const mustBePart = (known: Known, path: Path, id: string): Trouble[] =>
  mustName(known, path, id, known.parts.keys(), "a part of this loom");

function* sealTroubles(known: Known, path: Path, id: string, through: readonly [string, string]): Generator<Trouble> {
  const relay = known.parts.get(id);
  if (known.parts.has(id) && relay === undefined) return;
  const relays = () => [...known.parts].filter(([, p]) => p?.text.is === "relay").map(([name]) => name);
  if (relay?.text.is !== "relay") {
    yield mustBe(known.root, [...path, "seal-in"], "a relay of this loom", known.meant(id, relays()));
    return;
  }
  for (const [i, terminal] of through.entries())
    yield* mustName(known, [...path, "through", i], terminal, relay.terminals ?? [], `a terminal of ${id}`);
}
