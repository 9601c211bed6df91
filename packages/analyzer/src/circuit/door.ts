import type { Harm, Span } from "@loomproof/netlist";
import {
  ALWAYS,
  type Coil,
  type Drive,
  type Element,
  type ElementClass,
  type Guard,
  type Input,
  type Judge,
  type Latch,
  type Logic,
  type Owner,
  type Sense,
} from "./circuit.ts";
import { type Curve, sourceCurve } from "./curve.ts";
import { type Draft, nodeAt } from "./draft.ts";

const INSTANT: Span = { least: 0, most: 0 };
/** Delays from here on are timers: the world may move before they end. */
const TIMER_SECONDS = 0.1;

interface ElementSpec {
  readonly class: ElementClass;
  readonly from: string;
  readonly to: string;
  readonly says: string;
  readonly ohms?: number;
  readonly emf?: number;
  readonly curve?: Curve | { readonly least: Curve; readonly most: Curve };
  readonly closed?: Logic;
  readonly oneWay?: boolean;
  readonly series?: boolean;
  readonly copper?: boolean;
  readonly supply?: Element["supply"];
  readonly mostAmps?: number | undefined;
  readonly protects?: boolean;
  readonly unknown?: string | undefined;
  readonly owner?: Owner;
}

type Between = Pick<ElementSpec, "from" | "to" | "says"> & { readonly closed?: Logic };

interface LatchSpec {
  readonly id: string;
  readonly kind: Latch["kind"];
  readonly drive: Drive;
  readonly on?: Span;
  readonly off?: Span;
  readonly onTime?: Span;
  readonly offTime?: Span;
  readonly neverTimer?: boolean;
  readonly needs?: number | undefined;
  readonly carries?: Latch["carries"];
  readonly carriedBy?: number;
  readonly voltsPerDrive?: number;
  readonly label?: string;
  readonly says?: Latch["says"];
  readonly kept?: boolean;
  readonly delivered?: boolean;
}

/**
 * The one door through which families put elements into the circuit. Which method is called decides the class, so
 * that no rule ever asks "what is this part?". Names without a dot are inside nodes of the part.
 */
export class Door {
  readonly #draft: Draft;
  readonly part: string;
  readonly label: string;
  readonly family: string;
  readonly harm: Harm;

  constructor(
    draft: Draft,
    about: { readonly id: string; readonly label: string; readonly family: string; readonly harm: Harm },
  ) {
    this.#draft = draft;
    this.part = about.id;
    this.label = about.label;
    this.family = about.family;
    this.harm = about.harm;
  }

  /** Full name of a terminal of this part. */
  terminal(name: string): string {
    return `${this.part}.${name}`;
  }

  /** Full name of a place inside this part that no wire reaches. */
  inside(name: string): string {
    return `${this.part}/${name}`;
  }

  node(name: string): number {
    return nodeAt(this.#draft, name);
  }

  /** Whether a wire ends at this terminal of the part. */
  isWired(name: string): boolean {
    return this.#draft.wired.has(this.terminal(name));
  }

  #put(spec: ElementSpec): number {
    const curve =
      spec.curve === undefined
        ? undefined
        : "volts" in spec.curve
          ? { least: spec.curve, most: spec.curve }
          : spec.curve;
    return (
      this.#draft.elements.push({
        class: spec.class,
        a: this.node(spec.from),
        b: this.node(spec.to),
        ohms: spec.ohms ?? 0,
        emf: spec.emf ?? 0,
        curve,
        closed: spec.closed ?? ALWAYS,
        oneWay: spec.oneWay ?? false,
        series: spec.series ?? false,
        copper: spec.copper ?? false,
        supply: spec.supply,
        mostAmps: spec.mostAmps,
        protects: spec.protects ?? false,
        unknown: spec.unknown,
        owner: spec.owner ?? { kind: "part", id: this.part, from: spec.from, to: spec.to, says: spec.says },
      }) - 1
    );
  }

  /** Something that always conducts: a joint, a terminal strip, the metal under a stud. */
  conductor(spec: Between & { readonly ohms: number }): number {
    return this.#put({ ...spec, class: "conductor" });
  }

  /** A resistance in series: ballast, sender, blower resistor. */
  series(spec: Between & { readonly ohms: number }): number {
    return this.#put({ ...spec, class: "conductor", series: true });
  }

  /** A wire; its owner is the wire, not a part. */
  wire(spec: Between & { readonly ohms: number; readonly id: string }): number {
    const owner: Owner = { kind: "wire", id: spec.id, from: spec.from, to: spec.to, says: spec.says };
    const element = this.#put({ ...spec, class: "conductor", owner });
    this.#draft.wireElement.set(spec.id, element);
    return element;
  }

  /** Something that opens and closes: fuse, contact, blade. */
  gate(spec: Between & { readonly ohms: number }): number {
    return this.#put({ ...spec, class: "gate" });
  }

  /** A fuse or link: a gate that nothing but too large a current moves. */
  protector(spec: Between & { readonly ohms: number }): number {
    return this.#put({ ...spec, class: "gate", protects: true });
  }

  /** A discrete diode: a gate in its direction. */
  diode(spec: Between & { readonly curve: Curve }): number {
    return this.#put({ ...spec, class: "gate", oneWay: true });
  }

  /** A driver or power-module channel: a gate moved by logic. `oneWay` when it passes current from `from` only. */
  channel(spec: Between & { readonly ohms: number; readonly oneWay?: boolean }): number {
    return this.#put({ ...spec, class: "gate" });
  }

  /** A channel that some logic opens and closes. */
  output(spec: Between & { readonly ohms: number; readonly givesBoth?: boolean }): number {
    const { givesBoth = false, ...channel } = spec;
    const element = this.channel(channel);
    this.#draft.outputs.push({ element, part: this.part, givesBoth });
    return element;
  }

  /** An input pin of electronics that says what it wants. */
  sense(terminal: string, wants: Sense["wants"]): void {
    this.#draft.senses.push({ terminal, node: this.node(terminal), wants });
  }

  /** A path nobody draws: clamp, body diode, pull-up, leak. */
  stray(
    spec: Between & { readonly ohms?: number; readonly curve?: Curve; readonly unknown?: string | undefined },
  ): number {
    return this.#put({ ...spec, class: "stray", oneWay: spec.curve !== undefined });
  }

  /** A capacitor: once everything has settled only the leak is left. */
  capacitance(spec: Between & { readonly ohms: number; readonly farads: number }): number {
    const { farads, ...leak } = spec;
    const element = this.stray(leak);
    this.#draft.capacitances.push({ element, farads });
    return element;
  }

  /** A source: emf of `from` over `to` behind ohms. `feeds` makes its ends poles of designed feed and return. */
  source(
    spec: Between & {
      readonly emf: number;
      readonly ohms: number;
      readonly oneWay?: boolean;
      /** Ohms against current that comes in. */
      readonly charging?: number | undefined;
      readonly supply?: Element["supply"];
      /** It gives no more than this, whatever hangs on it. Only of a source that cannot take current. */
      readonly mostAmps?: number | undefined;
      readonly feeds: boolean;
    },
  ): number {
    const { feeds, oneWay, charging, emf, ohms, mostAmps, ...rest } = spec;
    // A source that cannot take current is a diode without drop in front of its emf.
    const backwards = oneWay ? 0 : charging === undefined ? undefined : 1 / charging;
    const element =
      backwards === undefined
        ? this.#put({ ...rest, class: "source", emf, ohms })
        : this.#put({
            ...rest,
            class: "source",
            emf,
            ohms,
            mostAmps,
            curve: sourceCurve(emf, ohms, backwards, mostAmps),
          });
    if (feeds) {
      this.#draft.poles.push({ node: this.node(spec.from), way: "feed", source: element });
      this.#draft.poles.push({ node: this.node(spec.to), way: "return", source: element });
    }
    return element;
  }

  /** A load with its way of being judged. */
  load(
    spec: Between & {
      readonly ohms?: number;
      readonly curve?: Curve | { readonly least: Curve; readonly most: Curve };
      readonly emf?: number;
      readonly copper?: boolean;
    },
    judge: Judge | undefined,
    lowIsMeant = false,
  ): number {
    const { part, label, family, harm } = this;
    const element = this.#put({ ...spec, class: "load" });
    if (judge) this.#draft.loads.push({ element, part, label, family, harm, judge, lowIsMeant });
    return element;
  }

  /** A place where current may return by design, while `element` conducts. */
  returnPole(node: string, element: number): void {
    this.#draft.poles.push({ node: this.node(node), way: "return", source: element });
  }

  /** The coils of a latch, as what drives them and quenches them needs them. */
  coil(coil: Coil): void {
    this.#draft.coils.push(coil);
  }

  /** A gate that the part closes when it is in. */
  makes(element: number): void {
    const list = this.#draft.contactsOf.get(this.part) ?? [];
    list.push(element);
    this.#draft.contactsOf.set(this.part, list);
  }

  /** The latch of the contact that an armature carries, where that has one of its own. */
  carriedBy(armature: number): number | undefined {
    return this.#draft.latches[armature]?.carries?.latch;
  }

  /** The index that the next latch will have, for one whose logic names itself. */
  nextLatch(): number {
    return this.#draft.latches.length;
  }

  latch(spec: LatchSpec): number {
    const onTime = spec.onTime ?? INSTANT;
    const offTime = spec.offTime ?? INSTANT;
    return (
      this.#draft.latches.push({
        id: spec.id,
        part: this.part,
        label: spec.label ?? this.label,
        kind: spec.kind,
        drive: spec.drive,
        on: spec.on ?? INSTANT,
        off: spec.off ?? INSTANT,
        onTime,
        offTime,
        onTimer: !spec.neverTimer && spec.kind !== "armature" && onTime.least >= TIMER_SECONDS,
        offTimer: spec.kind !== "armature" && offTime.least >= TIMER_SECONDS,
        needs: spec.needs,
        carries: spec.carries,
        carriedBy: spec.carriedBy,
        kept: spec.kept ?? false,
        delivered: spec.delivered ?? false,
        says: spec.says,
        voltsPerDrive: spec.voltsPerDrive ?? 1,
      }) - 1
    );
  }

  /** An input of this part: a switch by its positions, a request, or what the world moves. */
  input(spec: Omit<Input, "label" | "heededBy"> & Partial<Pick<Input, "label" | "heededBy">>): number {
    return this.#draft.inputs.push({ heededBy: undefined, label: this.label, ...spec }) - 1;
  }

  /** This switch is there to stop something. */
  guard(input: number, stops: Guard["stops"]): void {
    this.#draft.guards.push({ part: this.part, label: this.label, input, stops });
  }

  /** The part is electronics that something else cannot do without. */
  controls(): void {
    this.#draft.controllers.push(this.part);
  }

  /** The part works while this latch is on. */
  works(latch: number, needs: readonly string[] = []): void {
    this.#draft.works.push({ part: this.part, label: this.label, latch, needs });
  }

  /**
   * A pin whose nature is not known; elements of this tag exist only in the runs that take it so. Of a pin that nothing
   * is wired to it makes no difference, and no run.
   */
  unknown(pin: string, what: string, says: string): string {
    const tag = `${this.terminal(pin)} ${what}`;
    if (this.#draft.wired.has(this.terminal(pin))) this.#draft.unknowns.push({ tag, part: this.part, says });
    return tag;
  }

  /** Names made known by other parts (world inputs, switches), for conditions. */
  inputNamed(id: string): { readonly index: number; readonly input: Input } | undefined {
    const index = this.#draft.inputs.findIndex((i) => i.id === id);
    const input = this.#draft.inputs[index];
    return input === undefined ? undefined : { index, input };
  }
}
