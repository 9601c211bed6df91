import Logic, { type Formula } from "logic-solver";
import type { Ladder, Rung } from "./ladder.ts";

// What a ladder can do, as one relation between two moments, in Boolean logic alone.
//
// A moment: which buttons are pressed, which relays are in, and which relays are still falling into a place that they
// have no reason for any more. From a moment at which no relay wants to move a hand moves one button; from any other,
// one relay lands. What can be reached is a least fixed point: the solver is asked for a step that leads out of all that
// is known, and what it answers is known from then on, until there is no such step.

type Solver = InstanceType<typeof Logic.Solver>;

/** A moment as bits: buttons, relays, and those that land without a reason. */
type Moment = string;

export interface Reached {
  /** "101 01": buttons, relays. */
  readonly quiet: ReadonlySet<string>;
  /** "101 01 S2": a quiet moment and the button after which nothing comes to rest. */
  readonly restless: ReadonlySet<string>;
  /** Moments in all, and questions asked. */
  readonly moments: number;
  readonly questions: number;
}

/**
 * Relays that wanted to move and were robbed of the reason by another that landed: `none` of them goes through, only the
 * `next` thing to land may be one of them, or `any` of them, as long as nothing else gives them a reason to stay.
 */
export type Overtaken = "none" | "next" | "any";

const named = (name: string, count: number, at: "" | "'") =>
  Array.from({ length: count }, (_, i) => `${name}${i}${at}`);

export function reachedBySat(ladder: Ladder, overtaken: Overtaken): Reached {
  const relation = new Relation(ladder, overtaken);
  const { buttons, relays } = relation;
  const asText = (m: Moment) => `${m.slice(0, buttons)} ${m.slice(buttons, buttons + relays)}`;
  const cold: Moment = "0".repeat(buttons + 2 * relays);
  // Forwards: all that power on leads to.
  const forwards = relation.solver();
  const first = forwards.solveAssuming(cube(relation.bits(""), cold))?.getMap();
  const known = new Map<Moment, boolean>([[cold, first?.quiet === true]]);
  const from = new Grown(forwards, relation.bits(""));
  for (let m: Moment | undefined = cold; m !== undefined; ) {
    from.add(m);
    forwards.forbid(cube(relation.bits("'"), m));
    const step = from.ask();
    m = step && relation.read(step, "'");
    if (m !== undefined) known.set(m, step?.["quiet'"] === true);
  }
  // Backwards: of these, all from which landing relays can lead to quiet.
  const backwards = relation.solver();
  backwards.require(Logic.not("pressing"));
  backwards.require(Logic.or(...[...known.keys()].map((m) => cube(relation.bits(""), m))));
  const to = new Grown(backwards, relation.bits("'"));
  const calm = new Set<Moment>();
  const calms = (m: Moment) => {
    calm.add(m);
    to.add(m);
    backwards.forbid(cube(relation.bits(""), m));
  };
  for (const [m, isQuiet] of known) if (isQuiet) calms(m);
  for (let step = to.ask(); step !== undefined; step = to.ask()) calms(relation.read(step, ""));
  const quiet = [...known].filter(([, isQuiet]) => isQuiet).map(([m]) => m);
  const restless = new Set<string>();
  for (const m of quiet)
    for (let b = 0; b < buttons; b++) {
      const bits = [...m].map((x, i) => (i === b ? (x === "1" ? "0" : "1") : i < buttons + relays ? x : "0"));
      if (!calm.has(bits.join(""))) restless.add(`${asText(m)} ${ladder.buttons[b]?.id}`);
    }
  const questions = from.questions + to.questions + 1;
  return { quiet: new Set(quiet.map(asText)), restless, moments: known.size, questions };
}

const CONTACT = "/contact";
const isContact = (relay: Ladder["relays"][number] | undefined): boolean => relay?.id.endsWith(CONTACT) === true;

/**
 * The same ladder with a contact in the air: beside each relay that has contacts of both kinds one more that follows it.
 * Only what both have in common is closed.
 */
export function inTheAir({ buttons, relays }: Ladder): Ladder {
  const kinds = relays.flatMap((r) => contactsIn(r.rung));
  const hasBoth = (id: string) => (["make", "break"] as const).every((kind) => kinds.includes(`${kind} ${id}`));
  const apart = (rung: Rung): Rung => {
    if (rung.kind === "series" || rung.kind === "parallel") return { ...rung, parts: rung.parts.map(apart) };
    if (rung.kind === "button" || !hasBoth(rung.of)) return rung;
    return { kind: "series", parts: [rung, { ...rung, of: `${rung.of}${CONTACT}` }] };
  };
  const contact = (id: string) => ({ id: `${id}${CONTACT}`, rung: { kind: "make", of: id } as const });
  return {
    buttons,
    relays: relays.flatMap((r) => [{ ...r, rung: apart(r.rung) }, ...(hasBoth(r.id) ? [contact(r.id)] : [])]),
  };
}

const contactsIn = (rung: Rung): readonly string[] =>
  rung.kind === "series" || rung.kind === "parallel" ? rung.parts.flatMap(contactsIn) : [`${rung.kind} ${rung.of}`];

/** The step from one moment to the next. Names with a dash are those of the next. */
class Relation {
  readonly buttons: number;
  readonly relays: number;
  readonly #ladder: Ladder;
  readonly #overtaken: Overtaken;

  constructor(ladder: Ladder, overtaken: Overtaken) {
    this.#ladder = ladder;
    this.#overtaken = overtaken;
    this.buttons = ladder.buttons.length;
    this.relays = ladder.relays.length;
  }

  bits(at: "" | "'"): readonly string[] {
    const { buttons, relays } = this;
    return [...named("pressed", buttons, at), ...named("in", relays, at), ...named("falling", relays, at)];
  }

  read(step: Readonly<Record<string, boolean>>, at: "" | "'"): Moment {
    return this.bits(at)
      .map((n) => (step[n] ? "1" : "0"))
      .join("");
  }

  solver(): Solver {
    const solver = new Logic.Solver();
    const { relays, buttons } = this;
    const each = (count: number) => Array.from({ length: count }, (_, i) => i);
    for (const at of ["", "'"] as const) {
      for (const r of each(relays)) solver.require(Logic.equiv(`wants${r}${at}`, this.#wants(r, at)));
      solver.require(Logic.equiv(`quiet${at}`, Logic.not(Logic.or(...named("wants", relays, at)))));
    }
    // One thing happens: a button, or a relay.
    solver.require(Logic.exactlyOne(...named("press", buttons, ""), ...named("land", relays, "")));
    solver.require(Logic.equiv("pressing", Logic.or(...named("press", buttons, ""))));
    solver.require(Logic.implies("pressing", "quiet"));
    for (const b of each(buttons)) solver.require(Logic.equiv(`pressed${b}'`, Logic.xor(`pressed${b}`, `press${b}`)));
    for (const r of each(relays)) {
      solver.require(Logic.implies(`land${r}`, Logic.or(`wants${r}`, `falling${r}`)));
      solver.require(Logic.equiv(`in${r}'`, Logic.xor(`in${r}`, `land${r}`)));
      solver.require(Logic.equiv(`falling${r}'`, this.#falls(r)));
    }
    return solver;
  }

  #falls(r: number): Formula {
    const isRobbed = Logic.and("-pressing", `-wants${r}'`, `-land${r}`);
    // A contact whose armature has turned round goes nowhere else.
    if (this.#overtaken === "none" || isContact(this.#ladder.relays[r])) return Logic.FALSE;
    if (this.#overtaken === "next") return Logic.and(isRobbed, `wants${r}`);
    return Logic.and(isRobbed, Logic.or(`wants${r}`, `falling${r}`));
  }

  /** A relay wants to move if it is in without being fed, or out although it is. */
  #wants(r: number, at: "" | "'"): Formula {
    const { relays } = this.#ladder;
    return Logic.xor(`in${r}${at}`, this.#fed((relays[r] as Ladder["relays"][number]).rung, at));
  }

  #fed(rung: Rung, at: "" | "'"): Formula {
    const { buttons, relays } = this.#ladder;
    switch (rung.kind) {
      case "series":
        return Logic.and(...rung.parts.map((p) => this.#fed(p, at)));
      case "parallel":
        return Logic.or(...rung.parts.map((p) => this.#fed(p, at)));
      case "button": {
        const b = buttons.findIndex((x) => x.id === rung.of);
        return `${buttons[b]?.isBreak ? "-" : ""}pressed${b}${at}`;
      }
      case "make":
      case "break":
        return `${rung.kind === "break" ? "-" : ""}in${relays.findIndex((x) => x.id === rung.of)}${at}`;
      default:
        return rung satisfies never;
    }
  }
}

/** A set of moments that only grows, as a question for a step that starts, or ends, in it. */
class Grown {
  questions = 0;
  readonly #solver: Solver;
  readonly #names: readonly string[];
  #count = 0;

  constructor(solver: Solver, names: readonly string[]) {
    this.#solver = solver;
    this.#names = names;
  }

  /** The step touches one of those known so far, or one that is `more`. */
  add(m: Moment): void {
    const k = this.#count++;
    const oneOfThese = [`is${k}`, `more${k}`];
    this.#solver.require(Logic.or(...(k === 0 ? [] : [`-more${k - 1}`]), ...oneOfThese));
    this.#solver.require(Logic.implies(`is${k}`, cube(this.#names, m)));
  }

  ask(): Readonly<Record<string, boolean>> | undefined {
    this.questions++;
    return this.#solver.solveAssuming(`-more${this.#count - 1}`)?.getMap();
  }
}

const cube = (names: readonly string[], m: Moment): Formula =>
  Logic.and(...names.map((n, i) => (m[i] === "1" ? n : `-${n}`)));
