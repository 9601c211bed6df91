/** A bug of ours: the page stays, and says what happened. */
export function Trouble({ says, close }: { readonly says: string; readonly close: () => void }) {
  return (
    <main className="problems">
      <h1>Something in the tool went wrong</h1>
      <p>Your file is as it was. Please report this with the file:</p>
      <ul>
        <li>{says}</li>
      </ul>
      <button type="button" className="plain" onClick={close}>
        Back
      </button>
    </main>
  );
}
