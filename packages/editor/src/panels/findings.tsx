import type { Report } from "@loomproof/analyzer";
import type { Scene } from "@loomproof/drawing";
import type { Loom } from "@loomproof/netlist";
import { isStale, type Listed } from "../session/listed.ts";
import { fieldOfFirst } from "../sheet/marks.ts";
import { FindingItem } from "./finding-item.tsx";
import { SeverityShape } from "./severity.tsx";

interface Props {
  readonly listed: readonly Listed[];
  /** Of the last check that came to its end. */
  readonly report: Report | undefined;
  /** The loom as it is now, if that is not what was checked. */
  readonly now: Loom | undefined;
  readonly scene: Scene | undefined;
  readonly picked: string | undefined;
  readonly pick: (id: string | undefined) => void;
  readonly point: (wires: readonly string[]) => void;
}

const MOST_POSSIBLE = 5;

/** The findings, gravest first; one may be open. */
export function Findings({ listed, report, now, scene, picked, pick, point }: Props) {
  const top = listed.filter((l) => l.finding.under === undefined);
  const told = toldIn(listed);
  const notes = top.filter((l) => l.finding.severity === "note");
  const possible = told.filter((l) => l.finding.strength === "possible").slice(MOST_POSSIBLE);
  const shown = told.filter((l) => !possible.includes(l));
  const titleOf = (id: string) => listed.find((l) => l.finding.id === id)?.finding.title ?? id;
  const list = (some: readonly Listed[]) => (
    <ul className="findings">
      {some.map((l) => (
        <li key={l.finding.id}>
          <FindingItem
            listed={l}
            titleOf={titleOf}
            field={scene && fieldOfFirst(scene, l.finding.where)}
            isOpen={l.finding.id === picked}
            isStale={isStale(l, now)}
            pick={pick}
            point={point}
          />
        </li>
      ))}
    </ul>
  );
  return (
    <>
      {told.length === 0 && report !== undefined && <NothingFound />}
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
      {report !== undefined && <AtTheEnd report={report} />}
    </>
  );
}

/** What could not be checked, and how far all this reaches. */
function AtTheEnd({ report: { couldNotCheck, coverage } }: { readonly report: Report }) {
  return (
    <>
      {couldNotCheck.length > 0 && (
        <details>
          <summary>Could not check {couldNotCheck.length}</summary>
          <ul className="unchecked">
            {couldNotCheck.map((c) => (
              <li key={c.at}>
                {c.at}: {c.value}
              </li>
            ))}
          </ul>
        </details>
      )}
      <p className="foot">
        {coverage.complete
          ? "Every switch position, in every order, was looked at."
          : `Not looked at: ${coverage.left.join("; ")}.`}{" "}
        A model of what was drawn, not of what was built.
      </p>
    </>
  );
}

/** What stands in the list by itself: no consequences, nothing that the owner has accepted, no notes. */
export const toldIn = (listed: readonly Listed[]): readonly Listed[] =>
  listed.filter(
    ({ finding: { under, accepted, severity } }) =>
      under === undefined && accepted === undefined && severity !== "note",
  );

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

export function Counts({ told }: { readonly told: readonly Listed[] }) {
  const levels = ["danger", "fault", "caution"] as const;
  return (
    <span className="counts">
      {levels.map((level) => {
        const n = told.filter((l) => l.finding.severity === level).length;
        return n === 0 ? null : (
          <span key={level}>
            <SeverityShape severity={level} size={14} /> {n}
          </span>
        );
      })}
    </span>
  );
}
