// The address names what is open: #loom=NAME an example as it comes, #new a blank loom, #draft=ID what was opened or edited.

export type Asked =
  | { readonly kind: "nothing" }
  | { readonly kind: "blank" }
  | { readonly kind: "example" | "draft"; readonly id: string };

/** What the address asks for. */
export function askedFor(hash: string): Asked {
  if (hash === BLANK) return { kind: "blank" };
  const [, what, id] = /^#(loom|draft)=([\w-]+)$/.exec(hash) ?? [];
  if (what === undefined || id === undefined) return { kind: "nothing" };
  return { kind: what === "loom" ? "example" : "draft", id };
}

export const BLANK = "#new";
export const addressOf = (id: string): string => `#loom=${id}`;
export const draftAddress = (id: string): string => `#draft=${id}`;

/** Goes to another address, without asking anybody to follow it. `isSame`: Back leads to what was before this one. */
export function goTo(hash: string, isSame = false): void {
  if (window.location.hash === hash) return;
  const url = hash === "" ? window.location.pathname + window.location.search : hash;
  if (isSame) window.history.replaceState(null, "", url);
  else window.history.pushState(null, "", url);
}
