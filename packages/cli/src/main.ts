import { Argument, Command, Option } from "commander";
import { CAUTIONS } from "./cautions.ts";
import { type SchemaName, schemaNames } from "./json/names.ts";
import { processTerminal } from "./terminal.ts";
import { VERSION } from "./tool.ts";

const terminal = processTerminal();
const files = new Argument("<files...>", "loom files, patterns, or - for standard input");
const file = new Argument("<file>", "a loom file, or - for standard input");

const program = new Command("loomproof")
  .description("Proves a vehicle's wiring loom before a wire is cut.")
  .version(VERSION)
  .showSuggestionAfterError()
  .exitOverride();

program
  .command("prove")
  .description("say what is wrong, where, and what to do")
  .addArgument(files)
  .option("--json", "print the report for programs", false)
  .addOption(
    new Option("--fail-at <severity>", "exit 1 from this severity on")
      .choices(["danger", "fault", "caution", "note", "never"])
      .default("fault"),
  )
  .option("--strict", "exit 1 also if not everything could be looked at", false)
  .action(async (names, options) => {
    const { prove } = await import("./commands/prove.ts");
    process.exitCode = await prove(names, options, terminal);
  });

program
  .command("behave")
  .description("show what is on in which situation, and whether that is what you want; of two looms, what differs")
  .addArgument(file)
  .argument("[newer]", "a loom to compare it with: what the second does that the first does not")
  .option("--json", "print it for programs", false)
  .option("--all", "every situation, not only the first 16", false)
  .action(async (name, newer, options) => {
    const { behave } = await import("./commands/behave.ts");
    process.exitCode = await behave(name, newer, options, terminal);
  });

program
  .command("play")
  .description("play moves of the key and the switches, and say what follows in milliseconds")
  .addArgument(file)
  .requiredOption(
    "--moves <moves>",
    'such as "S1=run, 200ms S1=off S2=closed, rest S1=run": an optional time from the start (ms or s), or rest: when nothing moves any more',
  )
  .addOption(
    new Option("--times <times>", "which of the admissible times of relays, hands and modules")
      .choices(["usual", "fastest", "slowest"])
      .default("usual"),
  )
  .addOption(new Option("--json", "print events and traces for programs").default(false).conflicts("csv"))
  .option("--csv", "print the traces as a table", false)
  .action(async (name, options) => {
    const { play } = await import("./commands/play.ts");
    process.exitCode = await play(name, options, terminal);
  });

program
  .command("draw")
  .description("draw the loom as SVG, with a finding's path lit")
  .addArgument(file)
  .option("--finding <id>", "the finding to show, such as self-hold:K3")
  .option("--out <svg>", "write to this file instead of standard output")
  .addOption(new Option("--theme <theme>", "colours").choices(["light", "dark", "paper"]).default("light"))
  .action(async (name, options) => {
    const { draw } = await import("./commands/draw.ts");
    process.exitCode = await draw(name, options, terminal);
  });

program
  .command("parts")
  .description("what a part can be: its kinds, terminals and values")
  .argument("[family]", "such as relay")
  .action(async (family) => {
    const { parts } = await import("./commands/parts.ts");
    process.exitCode = parts(family, terminal);
  });

program
  .command("schema")
  .description("print the JSON Schema of the loom file or of what a command prints with --json")
  .addArgument(new Argument("<which>").choices(schemaNames))
  .action(async (which) => {
    const { schemas } = await import("./json/schemas.ts");
    terminal.print(JSON.stringify(schemas[which as SchemaName](), null, 1));
  });

program
  .command("cautions")
  .description("what to keep in mind before you trust a result")
  .action(() => terminal.print(CAUTIONS.map((c, i) => `${i + 1}. ${c}`).join("\n")));

try {
  await program.parseAsync();
} catch (error) {
  // Commander has said what was wrong with the call; its own code for help and version is 0.
  const code = error instanceof Error && "exitCode" in error ? Number(error.exitCode) : undefined;
  if (code === undefined) throw error;
  process.exitCode = code === 0 ? 0 : 2;
}
