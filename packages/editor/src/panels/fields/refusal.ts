/** Why a text was not taken, and what it may have meant. */
export interface Refusal {
  readonly says: string;
  readonly offers?: readonly string[];
}

/** A reason as a field tells it; none if there is none. */
export const refused = (why: string | undefined): Refusal | undefined =>
  why === undefined ? undefined : { says: why };
