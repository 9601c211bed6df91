import { type Loom, parse, type ResolvedLoom, resolve, write } from "@loomproof/netlist";
import { useMemo, useRef, useState } from "react";
import type { Edit } from "./editing.ts";

/** The loom of the panels while there is no document: edits are held to what reads back, and nothing is kept. */
export function useLocalLoom(text: string): { loom: Loom; resolved: ResolvedLoom; edit: Edit } | undefined {
  const [loom, set] = useState(() => parse(text));
  const newest = useRef(loom);
  const resolved = useMemo(() => (loom.ok ? resolve(loom.loom) : undefined), [loom]);
  if (!loom.ok || resolved === undefined) return undefined;
  const edit: Edit = (_, make) => {
    if (!newest.current.ok) return "There is no loom.";
    const read = parse(write(make(newest.current.loom)));
    if (!read.ok) return read.problems[0]?.says ?? "That would be no loom.";
    newest.current = read;
    set(read);
    return undefined;
  };
  return { loom: loom.loom, resolved, edit };
}
