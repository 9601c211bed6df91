/** Nodes that are joined, two by two, into nets. */
export interface Nets {
  readonly join: (a: number, b: number) => void;
  /** The node that stands for the net of this one. */
  readonly of: (node: number) => number;
}

/** Each of so many nodes a net of its own (union–find). */
export function netsOf(count: number): Nets {
  const parent = Int32Array.from({ length: count }, (_, n) => n);
  const of = (node: number): number => {
    let top = node;
    while (parent[top] !== top) top = parent[top] as number;
    for (let n = node; parent[n] !== top; ) {
      const next = parent[n] as number;
      parent[n] = top;
      n = next;
    }
    return top;
  };
  return {
    of,
    join: (a, b) => {
      parent[of(a)] = of(b);
    },
  };
}
