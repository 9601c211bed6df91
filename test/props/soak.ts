import { exampleLoom, exampleNames } from "../examples/examples.ts";
import { newsOf } from "./between-corners.ts";

// Many vehicles of every example, each of point values between the corners: `npm run soak [samples [first seed]]`. The
// analysis goes to corners, and says so; here it shows what it misses by that.

const [samples = 200, first = 1] = process.argv.slice(2).map(Number);

let all = 0;
for (const name of exampleNames) {
  const news = newsOf(exampleLoom(name), first, samples);
  const fresh = news.filter((n) => n.findings.length > 0);
  all += fresh.length;
  console.log(`${name}: ${samples} vehicles, ${fresh.length} with a finding that no run at the corners has`);
  print(news.map(({ seed, findings }) => ({ seed, ids: findings })));
  const along = news.map(({ seed, alongWithKnown }) => ({ seed, ids: alongWithKnown }));
  if (along.some(({ ids }) => ids.length > 0)) console.log("  along with one that is known:");
  print(along);
}
process.exitCode = all > 0 ? 1 : 0;

function print(seen: readonly { readonly seed: number; readonly ids: readonly string[] }[]): void {
  const by = new Map<string, number[]>();
  for (const { seed, ids } of seen) for (const id of ids) by.set(id, [...(by.get(id) ?? []), seed]);
  for (const [id, seeds] of by)
    console.log(`  ${id}: ${seeds.length}, seed ${seeds.slice(0, 5).join(", ")}${seeds.length > 5 ? " and more" : ""}`);
}
