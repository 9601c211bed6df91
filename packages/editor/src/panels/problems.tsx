import type { Problem } from "@loomproof/netlist";

interface Props {
  readonly name: string;
  readonly problems: readonly Problem[];
  /** The loom that was open before, if one was. */
  readonly before: string | undefined;
  readonly back: () => void;
}

/** Why a file could not be opened: every problem with its place. The file stays as it was. */
export function Problems({ name, problems, before, back }: Props) {
  return (
    <main className="problems">
      <h1>{name} cannot be opened</h1>
      <p>
        {problems.length === 1 ? "One place is not right." : `${problems.length} places are not right.`} Correct{" "}
        {problems.length === 1 ? "it" : "them"} and open the file again. Nothing was changed.
      </p>
      <ul>
        {problems.map((p) => (
          <li key={`${p.line}:${p.column}:${p.path}:${p.says}`}>
            <strong>
              Line {p.line}, column {p.column}
            </strong>
            <p>{p.says}</p>
            <dl>
              {p.path !== "" && (
                <>
                  <dt>at</dt>
                  <dd>{placeWords(p.path)}</dd>
                </>
              )}
              <dt>found</dt>
              <dd>{p.found}</dd>
              <dt>expected</dt>
              <dd>{p.expected}</dd>
            </dl>
          </li>
        ))}
      </ul>
      <button type="button" className="plain" onClick={back}>
        {before === undefined ? "Back" : `Back to ${before}`}
      </button>
    </main>
  );
}

/** "parts[1].watts" as a person counts: "parts, entry 2, watts". */
const placeWords = (path: string): string =>
  path.replace(/\[(\d+)\]/g, (_, i: string) => `, entry ${Number(i) + 1}`).replaceAll(".", ", ");
