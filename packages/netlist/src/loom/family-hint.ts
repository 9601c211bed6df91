import { families, familyIds } from "../parts/families.ts";
import { didYouMean } from "./nearest.ts";

/** " Did you mean ...?" for what somebody calls a part: a fuse is a protector, a pump is a kind of motor. */
export function didYouMeanFamily(text: string): string {
  const called = text.trim().toLowerCase();
  const kind = familyIds.filter((id) => families[id].kinds.some((k) => k === called));
  if (kind.length === 1) return ` Did you mean "is": "${kind[0]}", "kind": "${called}"?`;
  const word = familyIds.filter((id) => families[id].words.some((w) => w === called));
  return word.length === 1 ? ` Did you mean "${word[0]}"?` : didYouMean(text, familyIds);
}
