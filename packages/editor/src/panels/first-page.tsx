import type { DraftHead } from "../session/draft.ts";
import type { TakeFile } from "../session/read-file.ts";
import { Cautions } from "./cautions.tsx";
import { Choices } from "./choices.tsx";
import { KeptLooms } from "./kept-looms.tsx";

interface Props {
  readonly drafts: readonly DraftHead[];
  readonly takeFile: TakeFile;
  readonly remove: (id: string) => void;
  /** What the address asks for and there is not. */
  readonly missing: string | undefined;
}

/** Nothing is open: what can be opened, and the cautions. */
export function FirstPage({ drafts, takeFile, remove, missing }: Props) {
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
              {missing}
            </p>
          )}
          <Choices drafts={drafts} takeFile={takeFile} />
          <KeptLooms drafts={drafts} remove={remove} />
        </div>
        <Cautions />
      </div>
    </main>
  );
}
