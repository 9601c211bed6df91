import type { CutSeen, Finding, Report } from "@loomproof/analyzer";
import type { Problem } from "@loomproof/netlist";
import type { Painter } from "./paint.ts";
import { wrap } from "./wrap.ts";

const WIDTH = 96;
const INDENT = "         ";
const MOST_POSSIBLE = 5;

/** Nothing has no sign. */
const oneDigit = (v: number): string => (Math.abs(v) < 0.05 ? 0 : v).toFixed(1);

/** The findings of one loom in plain words, gravest first. */
export function reportText(file: string, report: Report, paint: Painter): string {
  const told = report.findings.filter((f) => f.under === undefined && f.accepted === undefined);
  const notes = told.filter((f) => f.severity === "note");
  const grave = told.filter((f) => f.severity !== "note");
  const possible = grave.filter((f) => f.strength === "possible");
  const hidden = new Set(possible.slice(MOST_POSSIBLE));
  const byId = new Map(report.findings.map((f) => [f.id, f]));
  const accepted = report.findings.filter((f) => f.accepted !== undefined).length;
  const lines = [paint.bold(file) + (report.title === "" ? "" : `  ${report.title}`), ""];
  if (grave.length === 0) lines.push(`${paint.good("Nothing found.")} ${coverageText(report)}`, "");
  for (const f of grave) if (!hidden.has(f)) lines.push(findingText(f, byId, paint), "");
  if (hidden.size > 0) lines.push(`${hidden.size} more if pins are as bad as they could be (--json shows them).`, "");
  for (const f of notes) lines.push(`note     ${f.title}. ${f.text}`, "");
  if (accepted > 0) lines.push(`${accepted} accepted by the owner.`, "");
  if (report.couldNotCheck.length > 0) {
    lines.push("Could not check:");
    for (const c of report.couldNotCheck) lines.push(`${INDENT}${c.at}: ${c.value}`);
    lines.push("");
  }
  if (grave.length > 0) lines.push(coverageText(report));
  return lines.join("\n").trimEnd();
}

const coverageText = (report: Report): string =>
  report.coverage.complete
    ? "Every switch position, in every order, was looked at."
    : `Not looked at: ${report.coverage.left.join("; ")}.`;

function findingText(f: Finding, byId: ReadonlyMap<string, Finding>, paint: Painter): string {
  const strength = f.strength === "possible" ? "possible: " : "";
  const lines = [
    `${paint.severity(f.severity)}${" ".repeat(9 - f.severity.length)}${paint.bold(`${strength}${f.title}`)}  ${paint.dim(f.id)}`,
  ];
  const say = (text: string): void => {
    lines.push(wrap(text, INDENT, WIDTH));
  };
  say(f.text);
  if (f.unknown !== undefined) say(`Only ${f.unknown}. Measure that pin.`);
  else if (f.strength === "possible") say(`Seen ${cornerWords(f.runs)}, and it depends on the make of the relay.`);
  if (f.hold) {
    say(holdWords(f));
    for (const c of f.hold.coil)
      say(
        `Coil of ${c.id}: ${c.volts.toFixed(2)} V; lets go for certain at ${c.releaseLeast.toFixed(2)} V, holds for certain above ${c.releaseMost.toFixed(2)} V.`,
      );
    if (f.hold.followers.length > 0) say(`${f.hold.followers.join(", ")} comes along with it.`);
  }
  if (f.moves.length > 0) {
    say("How it gets there:");
    for (const [i, m] of f.moves.entries())
      say(`${i + 1}. ${moveWords(m.set)}: ${m.then.length === 0 ? "nothing moves" : m.then.join(", ")}.`);
  }
  if (f.path.length > 1)
    say(
      `Path: ${f.path.map((t) => (f.volts[t] === undefined ? t : `${t} ${oneDigit(f.volts[t] ?? 0)} V`)).join(" > ")}`,
    );
  if (f.cuts) for (const line of cutWords(f.cuts)) say(line);
  say(`Do first: ${f.remedy}`);
  if (f.consequences.length > 0)
    say(`Comes with it: ${f.consequences.map((id) => byId.get(id)?.title ?? id).join("; ")}.`);
  return lines.join("\n");
}

function holdWords(f: Finding): string {
  switch (f.hold?.kind) {
    case "standing":
      return "It holds whatever the release times.";
    case "caught":
      return f.hold.margin === undefined
        ? "It holds only because one relay lets go later than another."
        : `It holds only because ${f.hold.margin.says}.`;
    case "leak":
      return "It is held through other parts, not through its own contact.";
    default:
      return "";
  }
}

function cutWords(cuts: NonNullable<Finding["cuts"]>): readonly string[] {
  const wires = (c: CutSeen) => c.wires.join(" and ");
  const lines: string[] = [];
  if (cuts.harmless.length > 0)
    lines.push(`Opening this ends it and breaks nothing: ${cuts.harmless.map(wires).join("; ")}.`);
  else lines.push("No wire can be opened without stopping something that should work.");
  const but = cuts.breaking.map((c) => `${wires(c)} (then ${c.stops.join(", ")} no longer works)`);
  const more = cuts.untold > 0 ? `; and ${cuts.untold} more ways` : "";
  if (but.length > 0) lines.push(`Ends it, but: ${but.join("; ")}${more}.`);
  return lines;
}

const moveWords = (set: Readonly<Record<string, string>>): string => {
  const all = Object.entries(set);
  if (all.length === 0) return "Battery connected";
  return all.map(([input, value]) => (value === "" ? input : `${input} to ${value}`)).join(" and ");
};

function cornerWords(runs: readonly string[]): string {
  const corners = new Set(runs.map((r) => r.split(",")[0]));
  const words = [];
  if (corners.has("usual")) words.push("in usual conditions");
  if (corners.has("weak")) words.push("hot, with a tired battery");
  if (corners.has("strong")) words.push("cold, with a full battery");
  return words.join("; ");
}

/** Each problem of a file that could not be read, with its place. */
export function problemsText(file: string, problems: readonly Problem[]): string {
  return problems
    .map(
      (p) =>
        `${file}:${p.line}:${p.column}  ${p.says}${p.path === "" ? "" : `\n  at ${p.path}`}\n  found ${p.found}; expected ${p.expected}`,
    )
    .join("\n");
}
