import type { On } from "../../behave/loads.ts";
import type { State } from "../../behave/state.ts";
import type { Intention, Situation, Wanted } from "../../circuit/circuit.ts";
import type { Facts, RunFacts } from "../facts.ts";

/** How a wish is broken. */
export type How =
  | { readonly kind: "on"; readonly on: On }
  | { readonly kind: "not on"; readonly on: On }
  | { readonly kind: "never goes off"; readonly on: On }
  | { readonly kind: "goes off late"; readonly seconds: number }
  | { readonly kind: "gives"; readonly amps: number }
  | { readonly kind: "together"; readonly other: string };

/** One found state in which a wish is not met. */
export interface Breach {
  readonly wish: Wanted;
  readonly how: How;
  readonly run: RunFacts;
  readonly at: number;
  /** The whole loom then. */
  readonly state: State;
  /** Ends of the thresholds that it hangs on; undefined if it also hangs on a time or on two histories at once. */
  readonly ends: Uint8Array | undefined;
}

/** What comes of comparing one intent: what breaks it, else what is missing to say that it is met. */
export interface Compared {
  readonly intent: Intention;
  readonly breaches: readonly Breach[];
  readonly missing: readonly string[];
}

/** What is said to be missing where situations name more than can be tried. */
export const TOO_MANY = "its situations name too many inputs at once";

/** Breaches of one wish as they are found, and what keeps it from being judged. */
export class Judging {
  readonly breaches: Breach[] = [];
  readonly missing = new Set<string>();
  /** Breaches only while outputs act whose logic is not told, by those outputs. */
  readonly #asked = new Map<string, readonly string[]>();
  readonly #seen = new Set<string>();
  readonly #wish: Wanted;
  readonly #named: ReadonlySet<number>;

  constructor(wish: Wanted) {
    this.#wish = wish;
    this.#named = namedIn(wish);
  }

  /** Of breaches that differ in nothing that is told, the first. */
  breach(
    run: RunFacts,
    at: number,
    how: How,
    about: { readonly state: State; readonly ends: State["ends"] | undefined },
  ): void {
    const asking = this.asking(run, about.state);
    if (asking.length > 0) {
      this.#asked.set(asking.join(), asking);
      return;
    }
    const key = [run.run.id, how.kind, "on" in how ? how.on : "", "other" in how ? how.other : "", about.ends].join(
      "|",
    );
    if (this.#seen.has(key)) return;
    this.#seen.add(key);
    this.breaches.push({ wish: this.#wish, how, run, at, ...about });
  }

  /** Outputs of unknown logic that act in a state, and that the wish does not name. */
  asking({ machine }: RunFacts, state: State): readonly string[] {
    return machine.circuit.inputs.flatMap((input, i) => {
      if (input.kind !== "request" || state.stands[i] === input.usual || this.#named.has(i)) return [];
      // What a sleeping module was asked for before does nothing.
      return input.heededBy?.some((l) => state.latches[l] === 1) === false ? [] : [input.id];
    });
  }

  /** Nothing firm: what would have to be known. */
  done(facts: Facts): Pick<Compared, "breaches" | "missing"> {
    if (this.breaches.length > 0) return { breaches: this.breaches, missing: [] };
    const [fewest] = [...this.#asked.values()].sort((a, b) => a.length - b.length);
    if (fewest !== undefined) this.missing.add(`what ${fewest.join(" and ")} waits for`);
    if (facts.runs.some((r) => !r.reachable.complete)) this.missing.add("not every order of moves was looked at");
    return { breaches: [], missing: [...this.missing] };
  }
}

/** Inputs that a wish names. */
function namedIn(wish: Wanted): ReadonlySet<number> {
  const situations: readonly Situation[] =
    wish.kind === "never with" ? [] : wish.kind === "off within" ? [wish.after] : wish.when;
  return new Set(situations.flatMap((s) => s.terms.map((t) => t.input)));
}
