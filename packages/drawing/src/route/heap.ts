/** A binary heap of numbered states by cost. */
export class Heap {
  readonly #keys: number[] = [];
  readonly #values: number[] = [];

  push(key: number, value: number): void {
    const [keys, values] = [this.#keys, this.#values];
    let i = keys.length;
    keys.push(key);
    values.push(value);
    // The hole moves up until the key fits; nothing is swapped.
    while (i > 0) {
      const up = (i - 1) >> 1;
      const over = keys[up] as number;
      if (over <= key) break;
      keys[i] = over;
      values[i] = values[up] as number;
      i = up;
    }
    keys[i] = key;
    values[i] = value;
  }

  /** The value with the smallest key, or −1. */
  pop(): number {
    const [keys, values] = [this.#keys, this.#values];
    const top = values[0];
    if (top === undefined) return -1;
    const key = keys.pop() as number;
    const value = values.pop() as number;
    const n = keys.length;
    if (n === 0) return top;
    let i = 0;
    for (;;) {
      let c = 2 * i + 1;
      if (c >= n) break;
      if (c + 1 < n && (keys[c + 1] as number) < (keys[c] as number)) c++;
      const under = keys[c] as number;
      if (under >= key) break;
      keys[i] = under;
      values[i] = values[c] as number;
      i = c;
    }
    keys[i] = key;
    values[i] = value;
    return top;
  }
}
