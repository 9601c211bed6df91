import { useState } from "react";

/** How a person says what is wanted of a row. */
export interface Wishing {
  readonly key: { readonly id: string; readonly name: string; readonly positions: readonly string[] };
  /** Parts that something is wanted of by now, though it may not be checked yet. */
  readonly wanted: ReadonlySet<string>;
  /** Wants a load on only in these positions of the key; says why it cannot be. */
  readonly want: (load: string, positions: readonly string[]) => string | undefined;
}

/** "Say what you want" of one load: in which positions of the key it may be on. */
export function WishForm({ row, wishing }: { readonly row: string; readonly wishing: Wishing }) {
  const [isOpen, open] = useState(false);
  const [chosen, choose] = useState<readonly string[]>([]);
  const [refused, refuse] = useState<string>();
  if (wishing.wanted.has(row)) return <b className="verdict">being checked</b>;
  if (!isOpen)
    return (
      <button type="button" className="invite" aria-label={`Say what you want of ${row}`} onClick={() => open(true)}>
        say what you want
      </button>
    );
  const { key, want } = wishing;
  return (
    <form
      className="wish-form"
      onSubmit={(event) => {
        event.preventDefault();
        const why = want(row, chosen);
        refuse(why);
        if (why === undefined) open(false);
      }}
      onKeyDown={(event) => {
        if (event.key.startsWith("Arrow")) event.stopPropagation();
        if (event.key !== "Escape") return;
        event.preventDefault();
        open(false);
      }}
    >
      <fieldset>
        <legend>only with {key.name}</legend>
        {key.positions.map((p) => (
          <label key={p}>
            <input
              type="checkbox"
              checked={chosen.includes(p)}
              onChange={(e) => choose(key.positions.filter((q) => (q === p ? e.target.checked : chosen.includes(q))))}
            />
            {p}
          </label>
        ))}
      </fieldset>
      <button type="submit" className="plain" disabled={chosen.length === 0}>
        Want it so
      </button>
      {refused !== undefined && <p role="alert">{refused}</p>}
    </form>
  );
}
