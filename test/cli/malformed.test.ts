import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { malformed } from "../hostile/malformed.ts";
import { loomproof, type Ran } from "./run.ts";

const MOST_SECONDS = 1;
const MOST_MEGABYTES = 500;
/** Letters from which a file is read in a process of its own. */
const LARGE = 50_000;

const folder = mkdtempSync(join(tmpdir(), "loomproof-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** Time of a process that shares its core only ever gets longer: of three tries the shortest counts. */
function quickest(run: () => Ran): Ran {
  let best = run();
  for (let tries = 1; tries < 3 && best.seconds >= MOST_SECONDS; tries++) {
    const again = run();
    if (again.seconds < best.seconds) best = again;
  }
  return best;
}

function expectMessage(err: string, expects: RegExp): void {
  expect(err).toMatch(expects);
  expect(err.split("\n").length).toBeLessThan(500);
  expect(err).not.toMatch(/\bat .*\.mjs:\d+/);
}

describe("a large file that is no loom, from standard input", () => {
  test.each(malformed.filter((m) => m.text().length >= LARGE))(
    "$name: a clear message, exit 2, quickly and in little memory",
    ({ text, expects }) => {
      const { code, err, seconds, megabytes } = quickest(() => loomproof(["prove", "-"], text()));
      expect(code).toBe(2);
      expectMessage(err, expects);
      expect(megabytes).toBeLessThan(MOST_MEGABYTES);
      expect(seconds).toBeLessThan(MOST_SECONDS);
    },
  );
});

describe("small files that are no looms, all of them named at once", () => {
  const small = malformed.filter((m) => m.text().length < LARGE);
  const files = small.map(({ text }, i) => {
    const file = join(folder, `${i}.json`);
    writeFileSync(file, text());
    return file;
  });
  const { code, out, err, seconds, megabytes } = loomproof(["prove", ...files]);

  test("exit 2, quickly and in little memory; nothing is proved", () => {
    expect(code).toBe(2);
    expect(out).not.toContain("looked at");
    // All together hardly longer than any one of them may take.
    expect(seconds).toBeLessThan(2 * MOST_SECONDS);
    expect(megabytes).toBeLessThan(MOST_MEGABYTES);
  });

  test.each(small.map((m, i) => ({ ...m, file: files[i] as string })))(
    "$name: a clear message",
    ({ file, expects }) => {
      // What is told of a file begins with its name and goes on to the next file.
      const from = err.indexOf(`${file}:`);
      expect(from).toBeGreaterThanOrEqual(0);
      const next = files.map((f) => err.indexOf(`${f}:`, from)).filter((at, i) => at > from && files[i] !== file);
      expectMessage(err.slice(from, next.length > 0 ? Math.min(...next) : undefined), expects);
    },
  );
});
