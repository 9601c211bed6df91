import { type Loom, sketch } from "@loomproof/netlist";
import { seeded } from "../seeded.ts";
import { CONTROLLER_ID, controllerOf, outputsFor } from "./truck-controller.ts";

// Looms of a truck that nobody built: every part, wire and number is invented. Of 1 000 parts about 60 are relays and 80
// switches; one controller with clamps on its outputs, whose logic nobody knows; two batteries; a ground of 30 mohm that
// a part of it shares; and two circuits on one feed so weak that the one moves the relay of the other.

/** Shares of all parts. */
const RELAYS = 0.06;
const SWITCHES = 0.08;
/** Circuits on the battery, or behind one ignition relay, before it is the other's turn; and on one ground stud. */
const ON_ONE_STRETCH = 20;
const ON_ONE_STUD = 8;
/** Circuits that stand on the shared ground, beside the controller and the weak feed. */
const SHARED = 3;

const THICK = { size: "50 mm2" };
const BATTERY_FEED = "F1.b";
const SHARED_GROUND = "XS1.1";

/** The loom of a seed with so many parts, 25 at least. */
export function truck(parts: number, seed: number): Loom {
  return new Truck(parts, seed).made();
}

class Truck {
  readonly #rnd: () => number;
  readonly #size: number;
  readonly #parts: Record<string, Record<string, unknown>> = {};
  readonly #wires: string[] = [];
  /** Wires that are not of 1 mm2, by place in the list. */
  readonly #special = new Map<number, Readonly<Record<string, string>>>();
  readonly #count = new Map<string, number>();
  readonly #outputs: number;
  #circuits = 0;
  #feed = BATTERY_FEED;
  #stud = "";

  constructor(size: number, seed: number) {
    this.#rnd = seeded(seed);
    this.#size = size;
    this.#outputs = outputsFor(size);
  }

  made(): Loom {
    const relays = Math.max(4, Math.round(RELAYS * this.#size));
    const switches = Math.max(4, Math.round(SWITCHES * this.#size));
    this.#supply();
    this.#weakFeed();
    const outputs = Array.from({ length: this.#outputs }, (_, i) => `A1.${i + 3}`);
    // What is left, circuit by circuit, so that all shares come out.
    const left = () => ({
      relays: relays - this.#of("K"),
      switches: switches - this.#of("S"),
      outputs: outputs.length,
    });
    for (let now = left(); now.relays > 0 || now.switches > 0 || now.outputs > 0; now = left()) {
      const todo = Math.max(1, now.switches + now.outputs);
      const fill = Math.floor((this.#size - Object.keys(this.#parts).length - now.relays - now.switches) / todo);
      this.#circuit(Math.max(2, fill), now, outputs);
    }
    while (Object.keys(this.#parts).length < this.#size) this.#load(`F${1 + this.#upTo(this.#of("F"))}.b`);
    const loom = sketch({
      definitions: [controllerOf(this.#outputs)],
      parts: this.#parts,
      wires: this.#wires,
    });
    const wires = loom.wires.map((w, i) => ({ ...w, ...this.#special.get(i) }));
    return { ...loom, title: `Invented truck of ${this.#size} parts`, wires };
  }

  /** Batteries, the second one behind a relay, the key, the controller, and where all ground goes. */
  #supply(): void {
    this.#part("G1 battery", { ohms: "2 mohm" });
    this.#part("G2 battery", { ohms: "4 mohm", volts: "12.4 V" });
    this.#part("F1 protector", { rated: "200 A" });
    this.#part("S1 key-switch", {
      joins: {
        off: [],
        accessories: [["30", "75"]],
        run: [
          ["30", "75"],
          ["30", "15"],
        ],
      },
    });
    this.#part("XS1 splice", {});
    this.#part("A1 module", { of: CONTROLLER_ID });
    this.#part("F2 protector", { rated: "10 A" });
    this.#count.set("G", 2).set("F", 2).set("S", 1).set("XS", 1);
    this.#wire("G1.+ F1.a", THICK);
    this.#wire("G1.- G2.-", THICK);
    this.#wire(`${BATTERY_FEED} S1.30`);
    this.#wire(`G1.- ${SHARED_GROUND}`, { ohms: "30 mohm" });
    // The second battery is joined while the key is at run.
    const join = this.#relay();
    this.#wire(`S1.15 ${join}.86`);
    this.#wire(`${join}.85 G1.-`);
    this.#wire(`G2.+ ${join}.30`, THICK);
    this.#wire(`${join}.87 ${BATTERY_FEED}`, THICK);
    // The controller and what it works hang on one ignition relay.
    this.#ignitionRelay();
    this.#wire(`${this.#feed} F2.a`);
    this.#wire("F2.b A1.1");
    this.#wire(`A1.2 ${SHARED_GROUND}`);
    this.#stud = "G1.-";
  }

  /** A relay and a heater behind one thin wire: with both on, the coil has too little left to hold. */
  #weakFeed(): void {
    const [fuse, coil, heater] = [this.#next("F"), this.#switch("toggle"), this.#switch("toggle")];
    this.#part(`${fuse} protector`, {});
    const relay = this.#relay();
    const [resistor, joint, load, lamp] = [this.#next("R"), this.#next("XS"), this.#next("E"), this.#next("E")];
    this.#part(`${resistor} resistor`, { ohms: "12 ohm" });
    this.#part(`${joint} splice`, {});
    this.#part(`${load} heater`, { ohms: "2 ohm" });
    this.#part(`${lamp} lamp`, {});
    this.#wire(`${BATTERY_FEED} ${fuse}.a`);
    this.#wire(`${fuse}.b ${resistor}.a`);
    this.#wire(`${resistor}.b ${joint}.1`);
    this.#wire(`${joint}.1 ${coil}.1`);
    this.#wire(`${coil}.2 ${relay}.86`);
    this.#wire(`${relay}.85 ${SHARED_GROUND}`);
    this.#wire(`${joint}.1 ${heater}.1`);
    this.#wire(`${heater}.2 ${load}.a`);
    this.#wire(`${load}.b ${SHARED_GROUND}`);
    this.#wire(`${fuse}.b ${relay}.30`);
    this.#wire(`${relay}.87 ${lamp}.a`);
    this.#wire(`${lamp}.b ${SHARED_GROUND}`);
  }

  #circuit(fill: number, left: { readonly relays: number; readonly switches: number }, outputs: string[]): void {
    const at = this.#circuits++;
    // Behind the outputs, stretches on the battery and stretches on the key take turns.
    const stretch = Math.floor((at - this.#outputs) / ON_ONE_STRETCH);
    if (at >= this.#outputs && (at - this.#outputs) % ON_ONE_STRETCH === 0) {
      if (stretch % 2 === 1 && left.relays > 1) this.#ignitionRelay();
      else this.#feed = BATTERY_FEED;
    }
    const isFirstOnStud = at >= SHARED && at % ON_ONE_STUD === 0;
    if (isFirstOnStud) {
      const stud = this.#next("XE");
      this.#part(`${stud} splice`, {});
      this.#wire(`${stud}.1 G1.-`, THICK);
      this.#stud = `${stud}.1`;
    }
    const ground = at < SHARED ? SHARED_GROUND : this.#stud;
    const fuse = this.#next("F");
    this.#part(`${fuse} protector`, {});
    this.#wire(`${this.#feed} ${fuse}.a`);
    const live = `${fuse}.b`;
    const loads = Math.max(1, fill - (isFirstOnStud ? 2 : 1));
    const output = outputs.shift();
    if (output !== undefined) this.#onOutput(live, output, loads, left.relays, ground);
    else if (left.relays > 0 && left.switches >= 2 && this.#rnd() < 0.15) this.#sealed(live, loads, ground);
    else if (left.relays > 0) this.#relayed(live, loads, left.switches > 0, ground);
    else this.#loads(this.#switched(live), loads, ground);
  }

  /** The controller draws a coil, or a lamp, to ground. */
  #onOutput(live: string, output: string, loads: number, relays: number, ground: string): void {
    if (relays > 0 && this.#rnd() < 0.6) {
      const relay = this.#relay();
      this.#wire(`${live} ${relay}.86`);
      this.#wire(`${relay}.85 ${output}`);
      this.#wire(`${live} ${relay}.30`);
      this.#loads(`${relay}.87`, loads, ground);
      return;
    }
    const lamp = this.#next("E");
    this.#part(`${lamp} lamp indicator`, {});
    this.#wire(`${live} ${lamp}.a`);
    this.#wire(`${lamp}.b ${output}`);
    if (loads > 1) this.#loads(live, loads - 1, ground);
  }

  /** A start and a stop button, and a contact of the relay over the start button. */
  #sealed(live: string, loads: number, ground: string): void {
    const [stop, start, relay] = [this.#switch("push-break"), this.#switch("push"), this.#relay()];
    this.#wire(`${live} ${stop}.1`);
    this.#wire(`${stop}.2 ${start}.1`);
    this.#wire(`${start}.2 ${relay}.86`);
    this.#wire(`${relay}.85 ${ground}`);
    this.#wire(`${stop}.2 ${relay}.30`);
    this.#wire(`${relay}.87 ${relay}.86`);
    this.#loads(`${relay}.87`, loads, ground);
  }

  /** A switch, or a contact of the relay before, and a relay. */
  #relayed(live: string, loads: number, isSwitched: boolean, ground: string): void {
    const relay = this.#relay();
    this.#wire(`${isSwitched ? this.#switched(live) : live} ${relay}.86`);
    this.#wire(`${relay}.85 ${ground}`);
    this.#wire(`${live} ${relay}.30`);
    this.#loads(`${relay}.87`, loads, ground);
  }

  #switched(live: string): string {
    const hand = this.#switch("toggle");
    this.#wire(`${live} ${hand}.1`);
    return `${hand}.2`;
  }

  /** Circuits from here on hang on a relay that the key pulls in. */
  #ignitionRelay(): void {
    const relay = this.#relay();
    this.#wire(`S1.15 ${relay}.86`);
    this.#wire(`${relay}.85 G1.-`);
    this.#wire(`${BATTERY_FEED} ${relay}.30`, THICK);
    this.#feed = `${relay}.87`;
  }

  /** So many parts on what is switched: loads, through connectors and splices. */
  #loads(from: string, count: number, ground: string): void {
    let live = from;
    for (let i = 0; i < count; i++) {
      const isLast = i === count - 1;
      if (!isLast && i % 5 === 1) {
        const plug = this.#next("X");
        this.#part(`${plug} connector`, { cavities: ["1"] });
        this.#wire(`${live} ${plug}.a1`);
        live = `${plug}.b1`;
      } else if (!isLast && i % 5 === 3) {
        const joint = this.#next("XS");
        this.#part(`${joint} splice`, {});
        this.#wire(`${live} ${joint}.1`);
        live = `${joint}.1`;
      } else this.#load(live, ground);
    }
  }

  #load(live: string, ground = this.#stud): void {
    const id = this.#next("E");
    const watts = `${1 + this.#upTo(10)} W`;
    if (this.#rnd() < 0.7) this.#part(`${id} lamp`, { watts });
    else this.#part(`${id} heater`, { ohms: `${15 + this.#upTo(60)} ohm`, harm: "none" });
    this.#wire(`${live} ${id}.a`);
    this.#wire(`${id}.b ${ground}`);
  }

  #relay(): string {
    const id = this.#next("K");
    this.#part(`${id} relay make`, { operate: "7 V", release: "2.5 V" });
    return id;
  }

  #switch(kind: "toggle" | "push" | "push-break"): string {
    const id = this.#next("S");
    this.#part(`${id} switch ${kind}`, {});
    return id;
  }

  #upTo(n: number): number {
    return Math.floor(this.#rnd() * n);
  }

  #of(letters: string): number {
    return this.#count.get(letters) ?? 0;
  }

  #next(letters: string): string {
    this.#count.set(letters, this.#of(letters) + 1);
    return `${letters}${this.#of(letters)}`;
  }

  #part(key: string, values: Record<string, unknown>): void {
    this.#parts[key] = values;
  }

  #wire(ends: string, special?: Readonly<Record<string, string>>): void {
    if (special !== undefined) this.#special.set(this.#wires.length, special);
    this.#wires.push(ends);
  }
}
