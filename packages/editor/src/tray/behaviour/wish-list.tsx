import type { Wish } from "./words.ts";

/** What is wanted, each with a tick or what came of comparing it. */
export function WishList({ wishes }: { readonly wishes: readonly Wish[] }) {
  if (wishes.length === 0) return null;
  return (
    <ul>
      {wishes.map((wish) => (
        <li key={wish.id}>
          <Verdict wish={wish} /> <span>{wish.says}</span>
          {wish.missing.length > 0 && <small>Not known: {wish.missing.join("; ")}.</small>}
        </li>
      ))}
    </ul>
  );
}

function Verdict({ wish: { verdict, isPossible } }: { readonly wish: Wish }) {
  switch (verdict) {
    case "met":
      return (
        <svg className="tick" viewBox="0 0 18 18" width="15" height="15" role="img" aria-label="it is so:">
          <path d="M2.5 9.5l4.5 5L15.5 3.5" />
        </svg>
      );
    case "not met":
      return (
        <b className={`verdict not-so${isPossible ? " possible" : ""}`}>{isPossible ? "may not be so" : "not so"}</b>
      );
    case "could not check":
      return <b className="verdict">not checked</b>;
    default:
      return verdict satisfies never;
  }
}
