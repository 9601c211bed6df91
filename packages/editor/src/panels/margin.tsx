import type { Finding, Report } from "@loomproof/analyzer";
import { FindingOpen } from "./finding-open.tsx";
import { SeverityShape } from "./severity.tsx";

interface Props {
  readonly report: Report | undefined;
  readonly picked: string | undefined;
  readonly pick: (id: string | undefined) => void;
}

const MOST_POSSIBLE = 5;

/** The margin: findings, gravest first; one may be open. */
export function Margin({ report, picked, pick }: Props) {
  if (report === undefined)
    return (
      <aside className="margin" aria-label="Findings" aria-busy="true">
        <header>
          <h2>Findings</h2>
        </header>
        <p className="working">
          <span className="bar" /> Looking at every switch position …
        </p>
      </aside>
    );
  const told = report.findings.filter(
    (f) => f.under === undefined && f.accepted === undefined && f.severity !== "note",
  );
  const notes = report.findings.filter((f) => f.under === undefined && f.severity === "note");
  const possible = told.filter((f) => f.strength === "possible").slice(MOST_POSSIBLE);
  const shown = told.filter((f) => !possible.includes(f));
  return (
    <aside className="margin" aria-label="Findings">
      <header>
        <h2>Findings</h2>
        <Counts findings={told} />
      </header>
      {told.length === 0 && <p className="nothing">Nothing found.</p>}
      <ul className="findings">
        {shown.map((f) => (
          <li key={f.id}>
            {f.id === picked ? (
              <FindingOpen finding={f} report={report} close={() => pick(undefined)} />
            ) : (
              <Row finding={f} pick={pick} />
            )}
          </li>
        ))}
      </ul>
      {possible.length > 0 && (
        <details>
          <summary>{possible.length} more if pins are as bad as they could be</summary>
          <ul className="findings">
            {possible.map((f) => (
              <li key={f.id}>
                <Row finding={f} pick={pick} />
              </li>
            ))}
          </ul>
        </details>
      )}
      {notes.length > 0 && (
        <details>
          <summary>
            {notes.length} {notes.length === 1 ? "note" : "notes"}
          </summary>
          <ul className="findings">
            {notes.map((f) => (
              <li key={f.id}>
                <Row finding={f} pick={pick} />
              </li>
            ))}
          </ul>
        </details>
      )}
      {report.couldNotCheck.length > 0 && (
        <details>
          <summary>Could not check {report.couldNotCheck.length}</summary>
          <ul className="aside">
            {report.couldNotCheck.map((c) => (
              <li key={c.at}>
                {c.at}: {c.value}
              </li>
            ))}
          </ul>
        </details>
      )}
      <p className="coverage">
        {report.coverage.complete
          ? "Every switch position, in every order, was looked at."
          : `Not looked at: ${report.coverage.left.join("; ")}.`}
      </p>
      <p className="foot">A model of what was drawn, not of what was built.</p>
    </aside>
  );
}

function Row({ finding, pick }: { readonly finding: Finding; readonly pick: (id: string) => void }) {
  return (
    <button type="button" className={`row ${finding.strength}`} onClick={() => pick(finding.id)}>
      <SeverityShape severity={finding.severity} />
      <span>
        <strong>{finding.title}</strong>
        <small>{finding.strength === "possible" ? "possible" : finding.text}</small>
      </span>
    </button>
  );
}

function Counts({ findings }: { readonly findings: readonly Finding[] }) {
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
