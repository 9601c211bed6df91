import { spawnSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

// A small house of the same shape with every kind of wrong import planted in it: the rules must name each of them.

const root = fileURLToPath(new URL("../../", import.meta.url));
const face = "packages/analyzer/src/index.ts";
const planted: readonly (readonly [from: string, imports: string, rule: string])[] = [
  ["packages/netlist/src/low.ts", "../../analyzer/src/index.ts", "netlist-stays-low"],
  ["packages/analyzer/src/low.ts", "../../drawing/src/index.ts", "analyzer-stays-low"],
  ["packages/editor/src/low.ts", "../../cli/src/index.ts", "editor-stays-low"],
  ["packages/analyzer/src/solve/up.ts", "../report/report.ts", "solve-looks-up"],
  ["packages/analyzer/src/behave/up.ts", "../rules/rule.ts", "behave-looks-up"],
  ["packages/analyzer/src/behave/ahead.ts", "../timeline/play.ts", "behave-looks-up"],
  ["packages/analyzer/src/timeline/up.ts", "../rules/rule.ts", "timeline-looks-up"],
  ["packages/netlist/src/parts/up.ts", "../loom/read.ts", "parts-look-up"],
  ["packages/cli/src/deep.ts", "../../drawing/src/svg/to-svg.ts", "no-deep-imports"],
  ["test/deep.test.ts", "../packages/drawing/src/svg/to-svg.ts", "tests-use-faces"],
  ["packages/drawing/src/disk.ts", "node:fs", "core-does-no-input-or-output"],
  ["packages/netlist/src/circle-back.ts", "./circle.ts", "no-circles"],
  ["packages/netlist/src/lost.ts", "./not-there.ts", "resolvable"],
];
/** The other half of the circle: it is told once. */
const half = ["packages/netlist/src/circle.ts", "./circle-back.ts"] as const;
const innocent: readonly (readonly [from: string, imports: string])[] = [
  ["packages/drawing/src/fine.ts", "../../analyzer/src/index.ts"],
  ["packages/analyzer/src/report/fine.ts", "../solve/solve.ts"],
  ["test/fine.test.ts", `../${face}`],
];
const targets = [
  face,
  "packages/drawing/src/index.ts",
  "packages/cli/src/index.ts",
  "packages/analyzer/src/report/report.ts",
  "packages/analyzer/src/rules/rule.ts",
  "packages/analyzer/src/solve/solve.ts",
  "packages/analyzer/src/timeline/play.ts",
  "packages/netlist/src/loom/read.ts",
  "packages/drawing/src/svg/to-svg.ts",
];

interface Violation {
  readonly rule: { readonly name: string };
  readonly from: string;
}

describe("the boundaries of the house", () => {
  let folder = "";
  let violations: readonly Violation[] = [];

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "loomproof-house-"));
    const put = (file: string, text: string) => {
      mkdirSync(join(folder, dirname(file)), { recursive: true });
      writeFileSync(join(folder, file), text);
    };
    for (const file of targets) put(file, "export const it = 1;\n");
    for (const [from, imports] of [...planted, half, ...innocent])
      put(from, `import * as it from "${imports}";\nexport const at = it;\n`);
    for (const file of [".dependency-cruiser.cjs", "tsconfig.base.json"])
      copyFileSync(join(root, file), join(folder, file));
    const cruiser = join(root, "node_modules/dependency-cruiser/bin/dependency-cruise.mjs");
    const args = [cruiser, "--config", ".dependency-cruiser.cjs", "--output-type", "json", "packages", "test"];
    const ran = spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8", maxBuffer: 64_000_000 });
    violations = (JSON.parse(ran.stdout) as { summary: { violations: Violation[] } }).summary.violations;
  }, 60_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test.each(planted)("%s importing %s breaks a rule", (from, _, rule) => {
    expect(violations.filter((v) => v.from === from).map((v) => v.rule.name)).toContain(rule);
  });

  test.each(innocent)("%s importing %s breaks none", (from) => {
    expect(violations.filter((v) => v.from === from)).toEqual([]);
  });
});
