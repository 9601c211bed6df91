const LONGEST = 60;

/** Single-letter changes between two short texts (Levenshtein); capitals do not count. */
function letterChanges(a: string, b: string): number {
  const [x, y] = [a.slice(0, LONGEST).toLowerCase(), b.slice(0, LONGEST).toLowerCase()];
  let row = Array.from({ length: y.length + 1 }, (_, j) => j);
  for (let i = 1; i <= x.length; i++) {
    const next = [i];
    for (let j = 1; j <= y.length; j++) {
      const swap = (row[j - 1] ?? 0) + (x[i - 1] === y[j - 1] ? 0 : 1);
      next.push(Math.min(swap, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[y.length] ?? 0;
}

/** The word most like `text`, if one is like enough to be what was meant. The first wins a tie. */
export function nearest(text: string, words: readonly string[]): string | undefined {
  let best: string | undefined;
  let fewest = Math.max(1, Math.floor(text.length / 2)) + 1;
  for (const word of words) {
    // The lengths alone already need this many changes.
    if (Math.abs(word.length - text.length) >= fewest) continue;
    const changes = letterChanges(text, word);
    if (changes < fewest) [best, fewest] = [word, changes];
  }
  return best;
}

/** " Did you mean ...?", or nothing. */
export function didYouMean(text: string, words: readonly string[]): string {
  const near = nearest(text, words);
  return near === undefined ? "" : ` Did you mean ${JSON.stringify(near)}?`;
}
