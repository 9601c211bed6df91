import type { Finding } from "@loomproof/analyzer";
import type { ResolvedLoom } from "@loomproof/netlist";
import { nameOf, volts } from "../panels/words.ts";
import { marksOf } from "../sheet/marks.ts";
import { Legend } from "./legend.tsx";
import { type Stretch, stretchesOf } from "./path.ts";

interface Props {
  readonly loom: ResolvedLoom;
  readonly finding: Finding | undefined;
  readonly point: (wires: readonly string[]) => void;
}

/** The lit path in words, in the direction of the current, and how to read the drawing. */
export function PathList({ loom, finding, point }: Props) {
  const steps = finding === undefined ? [] : (marksOf(loom, finding).steps ?? []);
  const stretches = finding === undefined ? [] : stretchesOf(loom, finding.path, finding.volts, steps);
  return (
    <>
      {finding === undefined && <p className="hint">Pick a finding: its path stands here in words.</p>}
      {finding !== undefined && stretches.length === 0 && (
        <p className="hint">This finding has no path of current; the part it is about is ringed.</p>
      )}
      {stretches.length > 0 && (
        <ol className="path">
          {stretches.map((s) => (
            <li
              key={s.key}
              className={s.isStep ? "step" : s.kind}
              onPointerEnter={() => point(s.kind === "wire" ? [s.id] : [])}
              onPointerLeave={() => point([])}
            >
              <span>{words(loom, s)}</span>
              {s.volts !== undefined && <b>{volts(s.volts)}</b>}
            </li>
          ))}
        </ol>
      )}
      <Legend />
    </>
  );
}

function words(loom: ResolvedLoom, { kind, id, terminals }: Stretch): string {
  if (kind === "wire") {
    const wire = loom.wires.find((w) => w.id === id);
    const size = wire?.areaMm2 === undefined ? "" : ` ${Number(wire.areaMm2.toPrecision(3))} mm²`;
    return `wire ${id}${size}${wire?.colour === undefined ? "" : ` ${wire.colour}`}`;
  }
  const isJoint = loom.parts.some((p) => p.id === id && (p.family === "splice" || p.family === "ground-point"));
  return isJoint
    ? nameOf(loom, id)
    : `${nameOf(loom, id)}, ${[...new Set(terminals)].join(" to ").replace("-", "\u2212")}`;
}
