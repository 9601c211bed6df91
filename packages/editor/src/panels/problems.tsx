import type { Problem } from "@loomproof/netlist";

/** Why a file could not be opened: every problem with its place. The loom that was open before stays as it was on disk. */
export function Problems({
  name,
  problems,
  close,
}: {
  readonly name: string;
  readonly problems: readonly Problem[];
  readonly close: () => void;
}) {
  return (
    <main className="problems">
      <h1>{name} cannot be opened</h1>
      <p>Nothing was changed. Correct these places and open it again.</p>
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
                  <dd>{p.path}</dd>
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
      <button type="button" className="plain" onClick={close}>
        Back
      </button>
    </main>
  );
}
