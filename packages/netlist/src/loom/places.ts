import type { Path } from "./problem.ts";

/** A place in the text, counted from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

export const placeText = ({ line, column }: Place): string => `line ${line}, column ${column}`;

interface Members {
  readonly keys: string[] | undefined;
  /** Of a list: where each value begins. Of a group: where each key and each value begins, in turn. */
  readonly at: number[];
  index?: ReadonlyMap<string, number>;
}

/** Where everything in a text stands. The reader fills it in; a path or an offset asks. */
export class Places {
  private readonly text: string;
  private readonly members = new Map<unknown, Members>();
  private lines: number[] | undefined;
  private root: unknown;
  private rootAt = 0;

  constructor(text: string) {
    this.text = text;
  }

  setRoot(value: unknown, at: number): void {
    this.root = value;
    this.rootAt = at;
  }

  addGroup(group: object): void {
    this.members.set(group, { keys: [], at: [] });
  }

  addList(list: readonly unknown[], at: number[]): void {
    this.members.set(list, { keys: undefined, at });
  }

  addKey(group: object, key: string, keyAt: number, valueAt: number): void {
    const members = this.members.get(group);
    members?.keys?.push(key);
    members?.at.push(keyAt, valueAt);
  }

  /** Offset of the value at a path, or of its key. A path that leads nowhere gives the last thing on it. */
  offset(path: Path, of: "key" | "value"): number {
    let value = this.root;
    let at = this.rootAt;
    for (const [i, step] of path.entries()) {
      const next = this.step(value, step, of === "key" && i === path.length - 1);
      if (next === undefined) return at;
      at = next;
      value = (value as Record<string | number, unknown>)[step];
    }
    return at;
  }

  place(offset: number): Place {
    const lines = this.lineStarts();
    let [low, high] = [0, lines.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((lines[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: offset - (lines[low] ?? 0) + 1 };
  }

  keyOffset(group: object, key: string): number {
    return this.step(group, key, true) ?? 0;
  }

  private step(within: unknown, step: string | number, wantsKey: boolean): number | undefined {
    const members = this.members.get(within);
    if (members === undefined) return undefined;
    if (members.keys === undefined) return members.at[Number(step)];
    if (members.index?.size !== members.keys.length) members.index = new Map(members.keys.map((k, n) => [k, n]));
    const n = members.index.get(String(step));
    return n === undefined ? undefined : members.at[2 * n + (wantsKey ? 0 : 1)];
  }

  private lineStarts(): number[] {
    if (this.lines !== undefined) return this.lines;
    const lines = [0];
    for (let i = this.text.indexOf("\n"); i >= 0; i = this.text.indexOf("\n", i + 1)) lines.push(i + 1);
    this.lines = lines;
    return lines;
  }
}
