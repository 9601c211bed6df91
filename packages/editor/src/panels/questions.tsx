import type { DocumentOfPage } from "../session/use-document.ts";

/** What a person has to decide before anything is written: each in one line, with what can be done. */
export function Questions({ page }: { readonly page: DocumentOfPage }) {
  const { document, isChangedOnDisk, saveOver, saveAs, leaveDisk, takeOther, keepCopy } = page;
  return (
    <>
      {document?.keeping.isApart && (
        <Question says="This loom was edited in another tab. What is edited here is not kept until you choose.">
          <button type="button" className="plain" onClick={() => void takeOther()}>
            Take the other tab’s
          </button>
          <button type="button" className="plain" onClick={keepCopy}>
            Keep mine as a copy
          </button>
        </Question>
      )}
      {isChangedOnDisk && (
        <Question says={`${document?.name} was changed on the disk since it was opened here. It is not saved yet.`}>
          <button type="button" className="plain" onClick={saveAs}>
            Save as another file
          </button>
          <button type="button" className="plain" onClick={saveOver}>
            Write over it
          </button>
          <button type="button" className="word" onClick={leaveDisk}>
            Leave it
          </button>
        </Question>
      )}
    </>
  );
}

function Question({ says, children }: { readonly says: string; readonly children: React.ReactNode }) {
  return (
    <div className="question" role="alert">
      <p>{says}</p>
      {children}
    </div>
  );
}
