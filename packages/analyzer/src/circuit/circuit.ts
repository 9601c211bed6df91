import type { Harm, Span } from "@loomproof/netlist";
import type { Curve } from "./curve.ts";
import type { Arrival, SheetTimes, Sides } from "./travel.ts";

// The loom as a circuit. Everything is an index: nodes, elements, inputs, latches. The names stay beside them.

/** What an element is to the analysis. A family chooses by the method of the door it calls. */
export type ElementClass = "conductor" | "gate" | "load" | "stray" | "source";

/** What a person would point at: a wire, or the way through a part between two terminals. */
export interface Owner {
  readonly kind: "wire" | "part";
  readonly id: string;
  /** Terminals in the order of the element's ends; an inside node has the part's id and a name in words. */
  readonly from: string;
  readonly to: string;
  readonly says: string;
}

/** True or false by the state: a latch, an input's stand, or a constant. */
export type Literal =
  | { readonly kind: "latch"; readonly latch: number; readonly is: boolean }
  | { readonly kind: "input"; readonly input: number; readonly stands: readonly boolean[] }
  | { readonly kind: "constant"; readonly is: boolean };

/** Literals that must all hold; `negated` turns the set round. */
export interface LiteralSet {
  readonly negated: boolean;
  readonly literals: readonly Literal[];
}

/** Any of these, each all of its sets. */
export type Logic = readonly (readonly LiteralSet[])[];

export const ALWAYS: Logic = [[]];
export const NEVER: Logic = [];

export const whileOn = (latch: number): LiteralSet => ({
  negated: false,
  literals: [{ kind: "latch", latch, is: true }],
});
export const whileOff = (latch: number): LiteralSet => ({
  negated: false,
  literals: [{ kind: "latch", latch, is: false }],
});

/** How a load is judged: by its share of the current at rated volts, by volts, or by a latch. */
export type Judge =
  | { readonly kind: "share"; readonly ratedAmps: number; readonly on: number; readonly partly: number }
  | { readonly kind: "volts"; readonly on: number; readonly partly: number }
  | { readonly kind: "latch"; readonly latch: number; readonly partlyAbove: number }
  | {
      readonly kind: "latches";
      readonly latches: readonly number[];
      readonly ratedAmps: number;
      readonly partlyVolts: number;
    };

export interface Element {
  readonly class: ElementClass;
  /** Current counts positive from `a` through the element to `b`. */
  readonly a: number;
  readonly b: number;
  readonly ohms: number;
  /** Volts of `a` over `b` with no current; 0 for what is no source. */
  readonly emf: number;
  /** Curve at the least and at the most draw; both the same for everything but draws. */
  readonly curve: { readonly least: Curve; readonly most: Curve } | undefined;
  /** When it conducts at all. */
  readonly closed: Logic;
  /** Current can only pass from `a` to `b`. */
  readonly oneWay: boolean;
  /** A resistance in series with something: conducts for designed feed, but is no short. */
  readonly series: boolean;
  /** Copper winding: its resistance follows the coil temperature. */
  readonly copper: boolean;
  /** Supply that follows the corners of the system, at rest or with the engine running. */
  readonly supply: "rest" | "running" | undefined;
  /** A source that gives no more than this, A. */
  readonly mostAmps: number | undefined;
  /** A fuse or link: opens when the current is too large. */
  readonly protects: boolean;
  /** Set when the element exists only if this unknown pin is so. */
  readonly unknown: string | undefined;
  readonly owner: Owner;
}

/** A load and its way of being on. One part may hold several. */
export interface Load {
  readonly element: number;
  readonly part: string;
  readonly label: string;
  readonly family: string;
  readonly harm: Harm;
  readonly judge: Judge;
  /** The owner says that it is meant to get less than full volts, in series with other loads. */
  readonly lowIsMeant: boolean;
}

/** A switch, a request or a world input. Its stands are its positions first, then its transits. */
export interface Input {
  readonly id: string;
  readonly kind: "switch" | "request" | "world";
  /** Of a request the name of its pin. */
  readonly label: string;
  readonly stands: readonly string[];
  readonly positions: number;
  readonly usual: number;
  readonly moves: readonly Move[];
  /** Module whose output a request is. */
  readonly module: string | undefined;
  /** Latches of which one must be on before anybody heeds a move away from the usual; undefined: always heeded. */
  readonly heededBy: readonly number[] | undefined;
  /** Key or main switch: its usual position is "off". */
  readonly isKey: boolean;
  /** Main switch or isolator: what it joins, it joins on purpose. */
  readonly isMain?: boolean | undefined;
  /** Stands of a key at which the engine is to be cranked. */
  readonly cranks?: readonly number[] | undefined;
  /** Stands that spring back when the hand lets go. */
  readonly springs?: readonly number[] | undefined;
}

/** One way from a position to a neighbour, through a transit if that differs from both. */
export interface Move {
  readonly from: number;
  readonly to: number;
  readonly via: number | undefined;
  readonly seconds: Span;
}

/** What drives a latch. */
export type Drive =
  | {
      readonly kind: "amp-turns";
      readonly windings: readonly { readonly element: number; readonly turns: number }[];
      /** What the direction does: nothing, only the positive counts, or each direction its own way. */
      readonly sign: "none" | "positive" | "both";
    }
  | { readonly kind: "volts"; readonly a: number; readonly b: number; readonly sign: 1 | -1 }
  /** A part that is on: one of these loads at least. */
  | { readonly kind: "loads"; readonly part: string; readonly loads: readonly number[] }
  | { readonly kind: "logic"; readonly logic: Logic };

/**
 * Anything with two states and hysteresis: an armature, an input level, a rail, a delayed logic state. It goes on at
 * `on` and off at `off` (amps or volts; between least and most it depends on the specimen) after the given times.
 * A changeover contact is a latch beside that of its armature: it is where its armature is, but for its time in the air.
 */
export interface Latch {
  readonly id: string;
  readonly part: string;
  readonly label: string;
  readonly kind: "armature" | "contact" | "level" | "rail" | "awake" | "state";
  readonly drive: Drive;
  readonly on: Span;
  readonly off: Span;
  readonly onTime: Span;
  readonly offTime: Span;
  /** Long enough that the world may move meanwhile (hold-up, prime). */
  readonly onTimer: boolean;
  readonly offTimer: boolean;
  /** The latch goes off at once while this latch is off (a controller whose rail has fallen). */
  readonly needs: number | undefined;
  /** The contact that this armature carries: its latch, and when it arrives after the armature has gone on or off. */
  readonly carries: { readonly latch: number; readonly on: Arrival; readonly off: Arrival } | undefined;
  /** The armature that carries this contact. */
  readonly carriedBy: number | undefined;
  /** Meant to remember: a latching relay, an engine that runs. */
  readonly kept: boolean;
  /** Where it stands before the first power. */
  readonly delivered: boolean;
  /** What the part does then, in words; empty for what nobody needs to hear of. Undefined: by the kind of latch. */
  readonly says: { readonly on: string; readonly off: string } | undefined;
  /** Coil volts at 20 °C per unit of drive, to say thresholds in volts. */
  readonly voltsPerDrive: number;
}

/** A place where designed feed or return begins. */
export interface Pole {
  readonly node: number;
  readonly way: "feed" | "return";
  /** The source whose pole it is; it counts only while that element is closed. */
  readonly source: number;
}

/** A switch that is there to stop something. */
export interface Guard {
  readonly part: string;
  readonly label: string;
  readonly input: number;
  /** Stands that stop, each with the parts that must be off then; undefined: everything that can do harm. */
  readonly stops: readonly { readonly stand: number; readonly parts: readonly string[] | undefined }[];
}

/** A part that works while a latch is on, and is no load: an engine, a magneto. */
export interface Work {
  readonly part: string;
  readonly label: string;
  readonly latch: number;
  /** Parts that must be on for it to go on working. */
  readonly needs: readonly string[];
}

/** A driver or channel by which electronics switch something. */
export interface Output {
  readonly element: number;
  readonly part: string;
  /** It gives feed and ground by turns, as half a bridge does. */
  readonly givesBoth: boolean;
}

/** An input pin of electronics, and what it wants to see when something is asked of it: only where the loom says so. */
export interface Sense {
  readonly terminal: string;
  readonly node: number;
  readonly wants: "battery" | "ground";
}

/** Where one input stands, or whether an engine runs, for a situation that the owner names. */
export type Term =
  | { readonly kind: "input"; readonly input: number; readonly stands: readonly boolean[] }
  | { readonly kind: "engine"; readonly input: number; readonly latch: number; readonly is: boolean };

/** A situation that the owner names: all of its terms. What it does not name may be anything. */
export interface Situation {
  readonly terms: readonly Term[];
  /** As the owner has it: "Key run or start". Empty for anything at all. */
  readonly says: string;
}

/** One wish of the owner. */
export type Wanted =
  | { readonly kind: "on only when" | "on when"; readonly part: string; readonly when: readonly Situation[] }
  | { readonly kind: "off within"; readonly part: string; readonly seconds: number; readonly after: Situation }
  | { readonly kind: "below"; readonly battery: string; readonly amps: number; readonly when: readonly Situation[] }
  | { readonly kind: "never with"; readonly part: string; readonly others: readonly string[] };

/** What the owner wants under one id, and what keeps it from being compared with anything. */
export interface Intention {
  readonly id: string;
  readonly wishes: readonly Wanted[];
  readonly lacks: readonly string[];
}

/** A relay that the owner means to hold itself in: a claim, until it is proved. */
export interface SealClaim {
  readonly id: string;
  readonly relay: string;
  readonly latch: number;
  /** As the owner has it: "40 and 47". */
  readonly through: string;
  /** The make contact between these, by element; none if the relay has no such contact. */
  readonly contacts: readonly number[];
  readonly set: readonly Situation[] | undefined;
  readonly clear: readonly Situation[] | undefined;
  /** What it names and nothing in the loom hangs on, in words. */
  readonly lacks: readonly string[];
}

/** What limits the volts of a coil when its current is cut off: fitted by its maker, so part of its own times. */
export type Quench =
  | { readonly kind: "none" }
  | { readonly kind: "diode" }
  | { readonly kind: "resistor"; readonly ohms: number }
  | { readonly kind: "zener"; readonly volts: number };

/** Windings of one armature: their current cannot jump. */
export interface Coil extends SheetTimes {
  readonly latch: number;
  /** Elements, by winding. */
  readonly windings: readonly number[];
  readonly ratedVolts: number;
  /** Drive of the latch per volt: while it pulls in, and while it holds. */
  readonly drivePerVolt: { readonly operate: number; readonly hold: number };
  readonly quench: Quench;
  readonly sides: Sides;
  /** Whether the loom gives the times, or the catalogue's wide ones stand in. */
  readonly isGiven: { readonly operateTime: boolean; readonly releaseTime: boolean };
}

/** A capacitance beside its own leak: its volts cannot jump. */
export interface Capacitance {
  readonly element: number;
  readonly farads: number;
}

export interface Circuit {
  readonly nodes: readonly string[];
  readonly nodeOf: ReadonlyMap<string, number>;
  readonly reference: number;
  readonly elements: readonly Element[];
  readonly loads: readonly Load[];
  readonly inputs: readonly Input[];
  readonly latches: readonly Latch[];
  readonly coils: readonly Coil[];
  readonly capacitances: readonly Capacitance[];
  readonly poles: readonly Pole[];
  readonly never: readonly (readonly { readonly input: number; readonly stand: number }[])[];
  readonly systemVolts: number;
  readonly fixedSupply: boolean;
  readonly guards: readonly Guard[];
  readonly works: readonly Work[];
  /** Controllers among the electronics, by part. */
  readonly controllers: readonly string[];
  readonly outputs: readonly Output[];
  readonly senses: readonly Sense[];
  /** Unknown pins, each a tag with the words for it. */
  readonly unknowns: readonly Unknown[];
  /** Elements of each wire and of each relay's contacts, for patches. */
  readonly wireElement: ReadonlyMap<string, number>;
  readonly wires: readonly WireFact[];
  readonly contactsOf: ReadonlyMap<string, readonly number[]>;
  /** Terminals that must be wired and are not, and joints with one wire. */
  readonly openEnds: readonly OpenEnd[];
  /** What the owner wants of the loom. */
  readonly intents: readonly Intention[];
  /** What the owner says is meant to hold itself in. */
  readonly sealClaims: readonly SealClaim[];
}

/** What the loom says of a wire besides its resistance. */
export interface WireFact {
  readonly id: string;
  readonly element: number;
  readonly lengthM: number;
  /** Its length is not given; a usual one is taken. */
  readonly isLengthAssumed: boolean;
  readonly areaMm2: number | undefined;
  readonly isSleeved: boolean;
  readonly ratedAmps: number | undefined;
  readonly unfusedBecause: string | undefined;
}

export interface Unknown {
  readonly tag: string;
  readonly part: string;
  readonly says: string;
}

export interface OpenEnd {
  readonly part: string;
  readonly terminal: string;
  readonly family: string;
  readonly says: string;
  readonly kind: "not wired" | "joint of one";
}
