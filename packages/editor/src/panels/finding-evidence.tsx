import type { CutSeen, Finding } from "@loomproof/analyzer";
import { DecidingScale } from "./deciding-scale.tsx";
import { certainty, listed } from "./words.ts";

const HOLDS = {
  standing: "It holds whatever the release times.",
  caught: "It holds only because one relay lets go later than another.",
  leak: "It is held through other parts, not through its own contact.",
} as const;

interface Props {
  readonly finding: Finding;
  /** It is not known yet what ends it. */
  readonly isUncut: boolean;
  /** Nor whether it is so with all that parts and pins may be. */
  readonly isUnsure: boolean;
  readonly titleOf: (finding: string) => string;
  /** Rings wires on the drawing while a person points at them. */
  readonly point: (wires: readonly string[]) => void;
}

/** What a finding rests on: the numbers that decide it, what ends it, what to do first. */
export function FindingEvidence({ finding, isUncut, isUnsure, titleOf, point }: Props) {
  const { hold, cuts } = finding;
  const sure = isUnsure ? undefined : certainty(finding);
  const others = finding.consequences.map(titleOf);
  return (
    <div className="evidence">
      <p>{finding.text}</p>
      {sure !== undefined && <p>{sure}</p>}
      {hold !== undefined && (
        <>
          {hold.coil.map((c) => (
            <DecidingScale key={c.id} coil={c} />
          ))}
          <p>
            {hold.margin === undefined ? HOLDS[hold.kind] : `It holds only because ${hold.margin.says}.`}
            {hold.followers.length > 0 && ` ${listed(hold.followers)} comes along with it.`}
          </p>
        </>
      )}
      {cuts !== undefined && cuts.harmless.length > 0 && (
        <Cuts title="Opening any one of these ends it and breaks nothing" cuts={cuts.harmless} point={point} />
      )}
      {cuts !== undefined && cuts.breaking.length > 0 && (
        <Cuts title="These end it, but then something no longer works" cuts={cuts.breaking} point={point}>
          {cuts.untold > 0 && (
            <li className="more">
              and {cuts.untold} more that {cuts.untold === 1 ? "stops" : "stop"} more
            </li>
          )}
        </Cuts>
      )}
      <section className="first-do">
        <h4>Do first</h4>
        <p>{isUncut ? "What ends it is not known yet." : finding.remedy}</p>
      </section>
      {others.length > 0 && (
        <section>
          <h4>Comes with it</h4>
          <ul className="with-it">
            {others.map((title) => (
              <li key={title}>{title}</li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

interface CutsProps {
  readonly title: string;
  readonly cuts: readonly CutSeen[];
  readonly point: Props["point"];
  readonly children?: React.ReactNode;
}

function Cuts({ title, cuts, point, children }: CutsProps) {
  const leave = () => point([]);
  return (
    <section>
      <h4>{title}</h4>
      <ul className="chips">
        {cuts.map((c) => (
          <li key={c.wires.join()}>
            <button
              type="button"
              className="chip"
              onPointerEnter={() => point(c.wires)}
              onPointerLeave={leave}
              onFocus={() => point(c.wires)}
              onBlur={leave}
              // A finger leaves before it clicks.
              onClick={() => point(c.wires)}
            >
              <b>{c.wires.join(" and ")}</b>
              {c.stops.length > 0 && <span> stops {listed(c.stops)}</span>}
            </button>
          </li>
        ))}
        {children}
      </ul>
    </section>
  );
}
