import type { Finding, Report } from "@loomproof/analyzer";
import type { Scene } from "@loomproof/drawing";
import { isTouched } from "../session/stale.ts";
import { fieldOfFirst } from "../sheet/marks.ts";
import { FindingItem } from "./finding-item.tsx";
import { SeverityShape } from "./severity.tsx";

interface Props {
  readonly report: Report;
  readonly scene: Scene | undefined;
  readonly picked: string | undefined;
  readonly pick: (id: string | undefined) => void;
  readonly point: (wires: readonly string[]) => void;
  /** Parts and wires that were edited since. */
  readonly touched: ReadonlySet<string>;
}

const MOST_POSSIBLE = 5;

/** The findings, gravest first; one may be open. */
export function Findings({ report, scene, picked, pick, point, touched }: Props) {
  const told = toldOf(report);
  const notes = report.findings.filter((f) => f.under === undefined && f.severity === "note");
  const possible = told.filter((f) => f.strength === "possible").slice(MOST_POSSIBLE);
  const shown = told.filter((f) => !possible.includes(f));
  const list = (findings: readonly Finding[]) => (
    <ul className="findings">
      {findings.map((f) => (
        <li key={f.id}>
          <FindingItem
            finding={f}
            report={report}
            field={scene && fieldOfFirst(scene, f.where)}
            isOpen={f.id === picked}
            isStale={isTouched(f, touched)}
            pick={pick}
            point={point}
          />
        </li>
      ))}
    </ul>
  );
  return (
    <>
      {told.length === 0 && <NothingFound />}
      {list(shown)}
      {possible.length > 0 && (
        <details>
          <summary>{possible.length} more if pins are as bad as they could be</summary>
          {list(possible)}
        </details>
      )}
      {notes.length > 0 && (
        <details>
          <summary>
            {notes.length} {notes.length === 1 ? "note" : "notes"}
          </summary>
          {list(notes)}
        </details>
      )}
      {report.couldNotCheck.length > 0 && (
        <details>
          <summary>Could not check {report.couldNotCheck.length}</summary>
          <ul className="unchecked">
            {report.couldNotCheck.map((c) => (
              <li key={c.at}>
                {c.at}: {c.value}
              </li>
            ))}
          </ul>
        </details>
      )}
      <p className="foot">
        {report.coverage.complete
          ? "Every switch position, in every order, was looked at."
          : `Not looked at: ${report.coverage.left.join("; ")}.`}{" "}
        A model of what was drawn, not of what was built.
      </p>
    </>
  );
}

/** What stands in the list by itself: no consequences, nothing that the owner has accepted, no notes. */
export const toldOf = (report: Report): readonly Finding[] =>
  report.findings.filter((f) => f.under === undefined && f.accepted === undefined && f.severity !== "note");

function NothingFound() {
  return (
    <p className="nothing">
      <svg viewBox="0 0 18 18" width="18" height="18" aria-hidden="true">
        <path d="M2.5 9.5l4.5 5L15.5 3.5" />
      </svg>
      <strong>Nothing found.</strong>
    </p>
  );
}

export function Counts({ findings }: { readonly findings: readonly Finding[] }) {
  const levels = ["danger", "fault", "caution"] as const;
  return (
    <span className="counts">
      {levels.map((level) => {
        const n = findings.filter((f) => f.severity === level).length;
        return n === 0 ? null : (
          <span key={level}>
            <SeverityShape severity={level} size={14} /> {n}
          </span>
        );
      })}
    </span>
  );
}
