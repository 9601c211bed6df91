const SLEEVES = [
  ["feed", "at feed potential"],
  ["between", "in between"],
  ["ground", "at ground"],
] as const;

/** What the sleeve round a wire says. */
export function Legend() {
  return (
    <dl className="legend" aria-label="How to read the drawing">
      {SLEEVES.map(([state, says]) => (
        <div key={state}>
          <dt>
            <svg viewBox="0 0 44 16" width="44" height="16" aria-hidden="true" className={state}>
              <rect x="0" y="1.5" width="44" height="13" />
              <path className="edges" d="M0 2H44M0 14H44" />
              {state === "between" && <path className="edges" d="M4 2v12M12.6 2v12M21.2 2v12M29.8 2v12M38.4 2v12" />}
              <path className="core" d="M0 8H44" />
            </svg>
          </dt>
          <dd>{says}</dd>
        </div>
      ))}
    </dl>
  );
}
