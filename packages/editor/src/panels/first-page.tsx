import { scenarios } from "../session/scenarios.ts";
import { Cautions } from "./cautions.tsx";
import { OpenFile } from "./open-file.tsx";

/** Nothing is open: what can be opened, and the cautions. */
export function FirstPage({ open }: { readonly open: (name: string, text: string) => void }) {
  return (
    <main className="first">
      <h1>Prove a loom before a wire is cut</h1>
      <p className="lead">
        Open a loom file. Loomproof walks every switch position, in every order, and shows what will not let go, what is
        fed backwards and what to open. Nothing is sent anywhere.
      </p>
      <div className="choices">
        {scenarios.map((s) => (
          <button type="button" className="choice" key={s.id} onClick={() => open(s.title, s.text)}>
            <strong>{s.title}</strong>
            <span>{s.says} Invented.</span>
          </button>
        ))}
        <OpenFile open={open} />
      </div>
      <Cautions />
    </main>
  );
}
