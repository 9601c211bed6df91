import type { Kept } from "../session/kept.ts";
import { Cautions } from "./cautions.tsx";
import { Choices } from "./choices.tsx";

interface Props {
  readonly last: Kept | undefined;
  readonly takeFile: (file: File) => void;
  readonly takeLast: () => void;
  /** An example that the address asks for and that there is not. */
  readonly missing: string | undefined;
}

/** Nothing is open: what can be opened, and the cautions. */
export function FirstPage({ last, takeFile, takeLast, missing }: Props) {
  return (
    <main className="first">
      <div className="first-paper">
        <div className="first-choose">
          <h1>Prove a loom before a wire is cut</h1>
          <p className="lead">
            Loomproof tries every switch position, in every order. It shows what will not let go, what is fed backwards,
            and which wire to open. Nothing is sent anywhere.
          </p>
          {missing !== undefined && (
            <p className="notice" role="status">
              There is no example called “{missing}” here. These are the ones there are.
            </p>
          )}
          <Choices last={last} takeFile={takeFile} takeLast={takeLast} />
        </div>
        <Cautions />
      </div>
    </main>
  );
}
