/** A loom that comes with the tool. All of them are invented. */
export interface Scenario {
  readonly id: string;
  /** Name of its file. */
  readonly name: string;
  readonly title: string;
  /** What it is, in a sentence. */
  readonly says: string;
  readonly text: string;
}

const files = import.meta.glob<string>("../../../../examples/*.loom.json", {
  query: "?raw",
  import: "default",
  eager: true,
});

/** The main one first; of each the first drawing before the cured one. */
const ORDER = ["marigold", "fuel-feed"];
const rank = (id: string): number => {
  const at = ORDER.findIndex((o) => id.startsWith(o));
  return at < 0 ? ORDER.length : at;
};
const isCured = (id: string): boolean => id.endsWith("-cured");

export const scenarios: readonly Scenario[] = Object.entries(files)
  .map(([path, text]) => scenarioOf(path.slice(path.lastIndexOf("/") + 1), text))
  .sort((a, b) => rank(a.id) - rank(b.id) || Number(isCured(a.id)) - Number(isCured(b.id)) || (a.id < b.id ? -1 : 1));

function scenarioOf(name: string, text: string): Scenario {
  const { title = name, note = "" }: { title?: string; note?: string } = JSON.parse(text);
  const [says = ""] = note.split(/(?<=\.)\s/);
  // Every card says "invented" by itself.
  return { id: name.replace(".loom.json", ""), name, title: title.replace(/ \(invented\)$/, ""), says, text };
}
