import type { Finding } from "@loomproof/analyzer";
import type { ResolvedLoom } from "@loomproof/netlist";
import { listed, moveWords, nameOf } from "../panels/words.ts";

/** How a finding comes about: a card a move, then how everything stands. */
export function Story({ loom, finding }: { readonly loom: ResolvedLoom; readonly finding: Finding | undefined }) {
  if (finding === undefined) return <About loom={loom} />;
  if (finding.moves.length === 0)
    return <p className="hint">This is so in every switch position: no move leads to it.</p>;
  const [end] = finding.states;
  return (
    <ol className="cards">
      {movesOf(finding).map(({ key, set, then }, i) => (
        <li key={key}>
          <h4>
            {moveWords(loom, set)} <span>{i + 1}</span>
          </h4>
          {then.length === 0 ? <p>Nothing else changes.</p> : <Then events={then} />}
        </li>
      ))}
      {end !== undefined && (
        <li className="end">
          <h4>
            So it stays <span>{finding.moves.length + 1}</span>
          </h4>
          <p>
            {end.on.length > 0
              ? `On: ${listed(
                  end.on.map((id) => nameOf(loom, id)),
                  4,
                )}. `
              : "Nothing is on. "}
            {end.in.length > 0 &&
              `In: ${listed(
                end.in.map((id) => nameOf(loom, id)),
                4,
              )}.`}
          </p>
        </li>
      )}
    </ol>
  );
}

function Then({ events }: { readonly events: readonly string[] }) {
  return (
    <ul>
      {[...new Set(events)].map((e) => (
        <li key={e}>{e}</li>
      ))}
    </ul>
  );
}

/** The moves with keys of their own: a move is known by all that came before it. */
function movesOf({ moves }: Finding) {
  let key = "";
  return moves.map((m) => {
    key += `/${Object.entries(m.set).join()}`;
    return { ...m, key };
  });
}

/** What this loom is, as long as no finding is picked. */
function About({ loom }: { readonly loom: ResolvedLoom }) {
  const count = (family: string) => loom.parts.filter((p) => p.family === family).length;
  const joints = count("splice") + count("ground-point");
  const moved = loom.parts.filter((p) => p.family === "key-switch" || p.family === "switch").map((p) => p.id);
  return (
    <div className="hint">
      <p>Pick a finding: how it comes about stands here, move by move.</p>
      <p>
        {loom.parts.length - joints} parts, {loom.wires.length} wires, {count("protector")} fuses, {count("relay")}{" "}
        relays.
        {moved.length > 0 &&
          ` What a person or the vehicle moves: ${listed(
            moved.map((id) => nameOf(loom, id)),
            8,
          )}.`}
      </p>
    </div>
  );
}
