import type { Behaviour, Report } from "@loomproof/analyzer";
import { SeverityShape } from "../../panels/severity.tsx";
import { severityOf } from "./severity-of.ts";
import { cellSentence, type Wish } from "./words.ts";

export interface ShownCell {
  readonly row: string;
  readonly at: number;
}

interface Props {
  readonly table: Behaviour;
  readonly wishes: ReadonlyMap<string | undefined, readonly Wish[]>;
  readonly report: Report | undefined;
  readonly picked: ShownCell | undefined;
  readonly openFinding: (id: string) => void;
  /** Undefined while the table is of an older loom. */
  readonly show: ((cell: ShownCell) => void) | undefined;
}

/** The picked cell in sentences, with what leads on from there. */
export function CellFoot({ table, wishes, report, picked, openFinding, show }: Props) {
  const said = picked && cellSentence(table, wishes, picked);
  if (picked === undefined || said === undefined)
    return (
      <footer className="cell-foot">
        <p role="status">Pick a cell: it is told here in words, and can be shown on the drawing.</p>
      </footer>
    );
  const [first] = said.against;
  const finding = first && report?.findings.find((f) => f.id === `intent:${first.id}`);
  const severity = first && severityOf(report, first.id);
  return (
    <footer className={`cell-foot ${severity ?? ""}`}>
      {severity !== undefined && <SeverityShape severity={severity} size={20} />}
      <p role="status">
        <strong>{said.head}</strong> {said.says}
      </p>
      <span className="does">
        {finding !== undefined && (
          <button type="button" className="word" onClick={() => openFinding(finding.id)}>
            How it gets there
          </button>
        )}
        {show !== undefined && (
          <button type="button" className="plain" onClick={() => show(picked)}>
            Show on the drawing
          </button>
        )}
      </span>
    </footer>
  );
}
