import { INSULATION } from "@loomproof/drawing";
import { COLOUR_NAMES } from "@loomproof/netlist";
import { useId, useState } from "react";
import { Frame } from "../fields/frame.tsx";

interface Props {
  /** Base or base/tracer, IEC 60757: "BK/YE". */
  readonly value: string | undefined;
  readonly set: (value: string) => string | undefined;
}

const codes = Object.entries(COLOUR_NAMES);

/** Base and tracer of the insulation, with how the wire looks. */
export function ColourField({ value, set }: Props) {
  const id = useId();
  const [error, tell] = useState<string>();
  const [base = "", tracer = ""] = value?.split("/") ?? [];
  const put = (b: string, t: string) => tell(set(b === "" || t === "" || t === b ? b : `${b}/${t}`));
  return (
    <Frame id={id} title="Colour" says="colour of the insulation, base and tracer, by IEC 60757" error={error}>
      <div className="colour">
        <svg viewBox="0 0 34 12" width="34" height="12" aria-hidden="true">
          <path className="edge" d="M2 6H32" />
          {base !== "" && <path d="M2 6H32" stroke={INSULATION[base]} strokeWidth="6" />}
          {tracer !== "" && <path d="M2 6H32" stroke={INSULATION[tracer]} strokeWidth="2.4" strokeDasharray="7 4" />}
        </svg>
        <select id={id} aria-label="Base colour" value={base} onChange={(e) => put(e.target.value, tracer)}>
          <option value="">not given</option>
          {codes.map(([code, name]) => (
            <option key={code} value={code}>
              {code} {name}
            </option>
          ))}
        </select>
        <select
          aria-label="Tracer colour"
          value={tracer}
          disabled={base === ""}
          onChange={(e) => put(base, e.target.value)}
        >
          <option value="">plain</option>
          {codes.map(([code, name]) => (
            <option key={code} value={code}>
              {code} {name}
            </option>
          ))}
        </select>
      </div>
    </Frame>
  );
}
