const CAUTIONS = [
  "Disconnect the battery before you work on the loom.",
  "Fuel and sparks together start fires.",
  "Motors, fans and starters move without warning.",
  "Airbags, belt pretensioners, anti-lock brakes and anything above 60\u00a0V\u00a0DC are out of scope.",
  "A computed result is a model of what was drawn, not of what was built.",
  "Local regulations, the makers’ own data and licensed practice come first.",
] as const;

/** The six cautions of the first page. */
export function Cautions() {
  return (
    <section className="cautions" aria-label="Cautions">
      <h2>Before you trust a result</h2>
      <ol>
        {CAUTIONS.map((c) => (
          <li key={c}>{c}</li>
        ))}
      </ol>
    </section>
  );
}
