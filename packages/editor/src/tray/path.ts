import { type ResolvedLoom, terminalText } from "@loomproof/netlist";

/** A stretch of a path: through one part, or along one wire. */
export interface Stretch {
  readonly key: string;
  readonly kind: "part" | "wire";
  readonly id: string;
  /** Whether it bears a number on the drawing. */
  readonly isStep: boolean;
  /** Terminals of the part, in the direction of the current. */
  readonly terminals: readonly string[];
  /** Where the current leaves a part. */
  readonly volts: number | undefined;
}

/** The path of a finding as a list: part, wire, part, and so on. */
export function stretchesOf(
  loom: ResolvedLoom,
  path: readonly string[],
  volts: Readonly<Record<string, number>>,
  steps: readonly string[],
): readonly Stretch[] {
  const out: Stretch[] = [];
  const partOf = (terminal: string) => terminal.slice(0, terminal.indexOf("."));
  path.forEach((terminal, i) => {
    const before = path[i - 1];
    const id = partOf(terminal);
    const name = terminal.slice(id.length + 1);
    const last = out.at(-1);
    if (before !== undefined && partOf(before) === id && last?.kind === "part") {
      out[out.length - 1] = { ...last, terminals: [...last.terminals, name], volts: volts[terminal] };
      return;
    }
    const wire = before === undefined ? undefined : wireBetween(loom, before, terminal);
    if (wire !== undefined)
      out.push({ key: `${i} ${wire}`, kind: "wire", id: wire, isStep: false, terminals: [], volts: undefined });
    const isStep = steps.includes(terminal);
    out.push({ key: `${i} ${id}`, kind: "part", id, isStep, terminals: [name], volts: volts[terminal] });
  });
  return out;
}

const wireBetween = (loom: ResolvedLoom, a: string, b: string): string | undefined =>
  loom.wires.find((w) => {
    const ends = [terminalText(w.from), terminalText(w.to)];
    return ends.includes(a) && ends.includes(b);
  })?.id;
