import type { Behaviour, BehaviourChange, BehaviourRow } from "@loomproof/analyzer";
import Table from "cli-table3";
import type { Painter } from "./paint.ts";
import { wrap } from "./wrap.ts";

const WIDTH = 96;

type AnyCell = BehaviourRow["cells"][number];

/** No rules between the rows. */
const CLOSE = { mid: "", "left-mid": "", "mid-mid": "", "right-mid": "" };

/** Nothing is said of what is off: the eye finds what is on. */
const SAYS: { readonly [C in Extract<AnyCell, string>]: string } = {
  on: "on",
  partly: "partly",
  off: "",
  in: "in",
  held: "held",
  out: "",
  awake: "awake",
  asleep: "asleep",
};

/** The behaviour table: one row a load, relay, module and battery, one numbered column a situation; then the intents. */
export function behaviourText(file: string, behaviour: Behaviour, paint: Painter): string {
  const { title, situations, rows, more } = behaviour;
  const table = new Table({
    head: ["", ...situations.map((_, i) => String(i + 1))],
    style: { head: [], border: [] },
    chars: CLOSE,
  });
  for (const row of rows)
    table.push([
      row.label,
      ...row.cells.map((c, k) => {
        const isAgainst = situations[k]?.against.some((a) => a.row === row.id) === true;
        return `${cellText(c)}${isAgainst ? " !" : ""}`.trim();
      }),
    ]);
  const lines = [paint.bold(file) + (title === "" ? "" : `  ${title}`), ""];
  lines.push(...situations.map((s, i) => `${String(i + 1).padStart(3)}  ${s.title}`));
  if (more > 0) lines.push(`     ${more} more situation${more === 1 ? "" : "s"} (--all shows them)`);
  lines.push("", table.toString());
  if (situations.some((s) => s.against.length > 0)) lines.push("! is not what you want.");
  lines.push("", ...intentLines(behaviour, paint));
  return lines.join("\n").trimEnd();
}

const cellText = (cell: AnyCell): string => (typeof cell === "string" ? SAYS[cell] : ampsText(cell));

/** mA below 1 A, three figures; as the findings have it. */
function ampsText(amps: number): string {
  const [value, unit] = amps < 1 ? [amps * 1000, "mA"] : [amps, "A"];
  return `${Number(value.toPrecision(3))} ${unit}`;
}

function intentLines({ intents, situations }: Behaviour, paint: Painter): readonly string[] {
  if (intents.length === 0) return [];
  const lines = ["What you want:"];
  for (const { id, says, verdict, strength, missing = [] } of intents) {
    const words = `${says.join("; ")}${says.length > 0 ? " " : ""}(${id})`;
    switch (verdict) {
      case "met":
        lines.push(`${paint.good("✓ met")}              ${words}`);
        break;
      case "not met": {
        const sure = strength === "possible" ? "✗ not met, maybe" : "✗ not met       ";
        lines.push(`${paint.bad(sure)}   ${words}`);
        lines.push(wrap(whereNot(situations, id), " ".repeat(19), WIDTH));
        break;
      }
      case "could not check":
        lines.push(`? could not check  ${words}`);
        for (const m of missing) lines.push(wrap(`Not known: ${m}.`, " ".repeat(19), WIDTH));
        break;
      default:
        verdict satisfies never;
    }
  }
  return lines;
}

function whereNot(situations: Behaviour["situations"], id: string): string {
  const at = situations.flatMap((s, i) => (s.against.some((a) => a.intent === id) ? [String(i + 1)] : []));
  const where = at.length === 0 ? "In a situation that is not shown here." : `In ${at.join(", ")}.`;
  return `${where} loomproof prove tells how it gets there.`;
}

/** Whole words, also for what is off: a change says both sides. */
const plain = (cell: AnyCell): string => (typeof cell === "string" ? cell : ampsText(cell));

/** What differs between two looms in what they do. */
export function changeText(change: BehaviourChange, paint: Painter): string {
  const { situations, added, gone, rowsAdded, rowsGone, intents } = change;
  const lines: string[] = [];
  for (const { title, rows } of situations) {
    lines.push(paint.bold(title));
    for (const r of rows) lines.push(`     ${r.label}: ${plain(r.before)} -> ${plain(r.after)}`);
    lines.push("");
  }
  const list = (head: string, items: readonly string[]): void => {
    if (items.length > 0) lines.push(head, ...items.map((i) => `     ${i}`), "");
  };
  list("New situations:", added);
  list("Situations that are gone:", gone);
  list("New rows:", rowsAdded);
  list("Rows that are gone:", rowsGone);
  list(
    "What you want:",
    intents.map((i) => `${i.says.join("; ") || i.id}: ${i.before ?? "not stated"} -> ${i.after ?? "not stated"}`),
  );
  return lines.length === 0 ? "Both do the same." : lines.join("\n").trimEnd();
}
