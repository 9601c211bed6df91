import type { CutSeen, Finding, Report } from "@loomproof/analyzer";
import { DecidingScale } from "./deciding-scale.tsx";
import { SeverityShape } from "./severity.tsx";

const HOLDS = {
  standing: "It holds whatever the release times.",
  caught: "It holds only because one relay lets go later than another.",
  leak: "It is held through other parts, not through its own contact.",
} as const;

interface Props {
  readonly finding: Finding;
  readonly report: Report;
  readonly close: () => void;
}

/** A finding with its evidence: the numbers that decide it, how it gets there, what ends it. */
export function FindingOpen({ finding, report, close }: Props) {
  const { hold, cuts } = finding;
  const others = finding.consequences.map((id) => report.findings.find((f) => f.id === id)?.title ?? id);
  return (
    <article className={`open ${finding.severity} ${finding.strength}`}>
      <button type="button" className="title" onClick={close} aria-expanded="true">
        <SeverityShape severity={finding.severity} />
        <h3>{finding.title}</h3>
      </button>
      <p>{finding.text}</p>
      {finding.unknown !== undefined && <p>Only {finding.unknown}. Measure that pin.</p>}
      {hold !== undefined && (
        <>
          {hold.coil.map((c) => (
            <DecidingScale key={c.id} coil={c} />
          ))}
          <p>
            {HOLDS[hold.kind]}
            {hold.followers.length > 0 && ` ${hold.followers.join(", ")} comes along with it.`}
          </p>
        </>
      )}
      {finding.moves.length > 0 && (
        <section>
          <h4>How it gets there</h4>
          <ol className="moves">
            {storyOf(finding).map(({ key, ...m }) => (
              <li key={key}>
                <strong>{moveWords(m.set)}</strong>
                {m.then.length > 0 && `: ${m.then.join(", ")}`}
              </li>
            ))}
          </ol>
        </section>
      )}
      {cuts !== undefined && (
        <section>
          {cuts.harmless.length > 0 && (
            <>
              <h4>Ends it and breaks nothing</h4>
              <Chips cuts={cuts.harmless} />
            </>
          )}
          {cuts.breaking.length > 0 && (
            <>
              <h4>Ends it, but then something no longer works</h4>
              <Chips cuts={cuts.breaking} />
              {cuts.untold > 0 && <p className="aside">and {cuts.untold} more ways</p>}
            </>
          )}
        </section>
      )}
      <section>
        <h4>Do first</h4>
        <p>{finding.remedy}</p>
      </section>
      {finding.path.length > 1 && (
        <details>
          <summary>The path in words</summary>
          <ol className="path">
            {finding.path.map((t) => (
              <li key={t}>
                {t}
                {finding.volts[t] !== undefined && ` ${finding.volts[t].toFixed(1)}\u00a0V`}
              </li>
            ))}
          </ol>
        </details>
      )}
      {others.length > 0 && <p className="aside">Comes with it: {others.join("; ")}.</p>}
    </article>
  );
}

function Chips({ cuts }: { readonly cuts: readonly CutSeen[] }) {
  return (
    <ul className="chips">
      {cuts.map((c) => (
        <li key={c.wires.join()}>
          <b>{c.wires.join(" and ")}</b>
          {c.stops.length > 0 && <span> stops {c.stops.join(", ")}</span>}
        </li>
      ))}
    </ul>
  );
}

/** The moves with keys of their own: a move is known by all that came before it. */
function storyOf({ moves }: Finding) {
  let key = "";
  return moves.map((m) => {
    key += `/${Object.entries(m.set).join()}`;
    return { ...m, key };
  });
}

function moveWords(set: Readonly<Record<string, string>>): string {
  const all = Object.entries(set);
  if (all.length === 0) return "Battery connected";
  return all.map(([input, value]) => (value === "" ? input : `${input} to ${value}`)).join(" and ");
}
