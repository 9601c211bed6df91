import type { Listed } from "../session/listed.ts";
import { FindingEvidence } from "./finding-evidence.tsx";
import { SeverityShape } from "./severity.tsx";
import { certainty } from "./words.ts";

interface Props {
  readonly listed: Listed;
  readonly titleOf: (finding: string) => string;
  /** Where it is on the sheet, such as B4. */
  readonly field: string | undefined;
  readonly isOpen: boolean;
  /** What it is about was edited since. */
  readonly isStale: boolean;
  readonly pick: (id: string | undefined) => void;
  readonly point: (wires: readonly string[]) => void;
}

/** One line in the list, or open with its evidence. The button stays the same, so that the keyboard keeps its place. */
export function FindingItem({ listed, titleOf, field, isOpen, isStale, pick, point }: Props) {
  const { finding, isUncut, isUnsure } = listed;
  const { id, severity, strength, title, text } = finding;
  return (
    <article
      data-finding={id}
      className={`finding ${isOpen ? "open" : "shut"} ${severity} ${strength}${isStale ? " stale" : ""}`}
    >
      <h3>
        <button type="button" aria-expanded={isOpen} onClick={() => pick(isOpen ? undefined : id)}>
          <SeverityShape severity={severity} />
          <span>
            <strong>{title}</strong>
            {!isOpen && <small>{strength === "possible" ? certainty(finding) : text}</small>}
          </span>
          {field !== undefined && <span className="field">{field}</span>}
        </button>
      </h3>
      {isStale && <p className="as-of">As of before your last edit.</p>}
      {isOpen && <FindingEvidence {...{ finding, isUncut, isUnsure, titleOf, point }} />}
    </article>
  );
}
