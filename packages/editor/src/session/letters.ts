const LETTERS = "abcdefghijkmnpqrstuvwxyz23456789";

/** So many random letters and figures, for ids that no other tab makes. */
export const letters = (n: number): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(n)), (byte) => LETTERS[byte % LETTERS.length]).join("");
