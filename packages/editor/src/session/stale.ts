import { change, type Loom } from "@loomproof/netlist";

type Touched = ReadonlySet<string>;

/** What was asked last of each loom: every finding of a list asks the same. */
const known = new WeakMap<Loom, { readonly now: Loom; readonly touched: Touched }>();

/** Parts and wires that are not any more what a check was about: changed, new or gone. */
export function touchedSince(checked: Loom | undefined, now: Loom | undefined): Touched {
  if (checked === undefined || now === undefined || checked === now) return NOTHING;
  const last = known.get(checked);
  if (last?.now === now) return last.touched;
  const touched = findTouched(checked, now);
  known.set(checked, { now, touched });
  return touched;
}

const NOTHING: Touched = new Set();

function findTouched(checked: Loom, now: Loom): Touched {
  const touched = new Set<string>();
  for (const key of Object.keys(change(checked, now))) {
    const [list, id = ""] = key.split("/");
    if (list === "parts" || list === "wires") touched.add(id);
    if (list === "definitions") for (const p of now.parts) if (p.of === id) touched.add(p.id);
    // What the world can do, and the volts of it all, touch everything.
    if (list === "system" || list === "world") for (const i of [...now.parts, ...now.wires]) touched.add(i.id);
  }
  return touched;
}

interface About {
  readonly where: readonly string[];
  readonly path: readonly string[];
}

/** Whether a finding is about anything that was touched. */
export const isTouched = ({ where, path }: About, touched: Touched): boolean =>
  touched.size > 0 && [...where, ...path].some((at) => touched.has(at.split(".")[0] ?? at));
