import fuelFeed from "../../../../examples/fuel-feed.loom.json?raw";
import fuelFeedCured from "../../../../examples/fuel-feed-cured.loom.json?raw";

/** A loom that comes with the tool. All of them are invented. */
export interface Scenario {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly text: string;
}

export const scenarios: readonly Scenario[] = [
  {
    id: "fuel-feed",
    title: "Fuel feed, as first drawn",
    says: "A tractor's fuel feed relay that stays in with the key off.",
    text: fuelFeed,
  },
  {
    id: "fuel-feed-cured",
    title: "Fuel feed, cured",
    says: "The same with one wire moved.",
    text: fuelFeedCured,
  },
];
