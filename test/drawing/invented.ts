import { type Loom, loomSchema } from "@loomproof/netlist";

// Looms of the size of real vehicles, put together from blocks that every tractor has. Every name, number and value in
// them is invented.

type Row = Readonly<Record<string, unknown>>;
type PinKind = "supply" | "ground" | "input" | "low-side" | "supply-out" | "sensor-ground";

/** A loom being written: parts with running numbers, wires in the order in which they are asked for. */
class Draft {
  readonly parts: Row[] = [];
  readonly wires: Row[] = [];
  readonly definitions: Row[] = [];
  readonly #last = new Map<string, number>();

  id(letter: string): string {
    const n = (this.#last.get(letter) ?? 0) + 1;
    this.#last.set(letter, n);
    return `${letter}${n}`;
  }

  part(letter: string, is: string, label: string, more: Row = {}): string {
    const id = this.id(letter);
    this.parts.push({ id, is, label, ...more });
    return id;
  }

  wire(from: string, to: string, mm2: number, colour: string): void {
    this.wires.push({ id: `W${this.wires.length + 1}`, from, to, size: `${mm2} mm2`, length: "1 m", colour });
  }
}

interface Controller {
  readonly part: string;
  /** Where the main relay's feed is joined. */
  readonly feed: string;
  readonly sensorGround: string;
  readonly sensorFeed: string;
  readonly pin: (name: string, kind: PinKind) => string;
  readonly pins: Row[];
}

/** The blocks, on one draft. */
class Blocks {
  readonly draft = new Draft();
  readonly #grounds: string[] = [];
  #nextGround = 0;
  readonly #always: string;
  readonly #switched: string;
  readonly key: string;
  readonly battery: string;

  constructor() {
    const d = this.draft;
    for (let i = 0; i < 5; i++) this.#grounds.push(`${d.part("XE", "ground-point", "")}.1`);
    this.battery = d.part("G", "battery", "Battery");
    const isolator = d.part("Q", "switch", "Isolator", { kind: "isolator" });
    const stud = `${d.part("XS", "splice", "Stud")}.1`;
    const main = d.part("F", "protector", "Main", { kind: "bolt-down", rated: "60 A" });
    this.#always = `${d.part("XS", "splice", "Always on")}.1`;
    this.#switched = `${d.part("XS", "splice", "Key on")}.1`;
    this.key = d.part("S", "key-switch", "Key");
    d.wire(`${this.battery}.+`, `${isolator}.1`, 35, "RD");
    d.wire(`${this.battery}.-`, this.ground(), 35, "BK");
    d.wire(`${isolator}.2`, stud, 35, "RD");
    d.wire(stud, `${main}.a`, 10, "RD");
    d.wire(`${main}.b`, this.#always, 6, "RD");
    d.wire(this.fuse("Key"), `${this.key}.30`, 2.5, "RD");
    d.wire(`${this.key}.15`, this.#switched, 2.5, "BK");
    this.#start(stud);
  }

  ground(): string {
    this.#nextGround = (this.#nextGround + 1) % this.#grounds.length;
    return this.#grounds[this.#nextGround] ?? "";
  }

  /** The far end of a new fuse. */
  fuse(label: string, from: "always" | "switched" = "always"): string {
    const f = this.draft.part("F", "protector", label, { kind: "blade", rated: "15 A" });
    this.draft.wire(from === "always" ? this.#always : this.#switched, `${f}.a`, 2.5, from === "always" ? "RD" : "BK");
    return `${f}.b`;
  }

  #start(stud: string): void {
    const d = this.draft;
    const [neutral, seat] = [
      d.part("S", "switch", "Neutral", { kind: "gear" }),
      d.part("S", "switch", "Seat", { kind: "seat" }),
    ];
    const relay = d.part("K", "relay", "Start");
    const starter = d.part("M", "motor", "Starter", { kind: "starter" });
    d.wire(`${this.key}.50`, `${neutral}.1`, 1.5, "YE");
    d.wire(`${neutral}.2`, `${seat}.1`, 1.5, "YE/BK");
    d.wire(`${seat}.2`, `${relay}.86`, 1, "YE/BN");
    d.wire(`${relay}.85`, this.ground(), 0.75, "BN");
    d.wire(stud, `${relay}.30`, 25, "RD");
    d.wire(`${relay}.87`, `${starter}.+`, 25, "YE/RD");
    d.wire(`${starter}.-`, this.ground(), 25, "BK");
  }

  controller(label: string): Controller {
    const d = this.draft;
    const pins: Row[] = [];
    const part = d.id("A");
    const pin = (name: string, kind: PinKind) => {
      pins.push({ pin: String(pins.length + 1), name, kind, ...(kind === "input" ? { wants: "ground" } : {}) });
      return `${part}.${pins.length}`;
    };
    const definition = `invented-${part.toLowerCase()}`;
    d.definitions.push({ id: definition, family: "module", kind: "controller", from: { kind: "invented" }, pins });
    d.parts.push({ id: part, is: "module", of: definition, label });
    const main = d.part("K", "relay", "Main relay", { suppression: { diode: "85>86" } });
    const [feed, sensorFeed, sensorGround] = ["Feed", "5 V", "Sensor ground"].map(
      (l) => `${d.part("XS", "splice", l)}.1`,
    ) as [string, string, string];
    d.wire(this.fuse(label), `${main}.30`, 2.5, "RD/BU");
    d.wire(this.#switched, `${main}.86`, 0.75, "BK/YE");
    d.wire(`${main}.85`, pin("main relay", "low-side"), 0.75, "VT/GN");
    d.wire(`${main}.87`, feed, 2.5, "RD/GN");
    for (let i = 0; i < 2; i++) d.wire(feed, pin("supply", "supply"), 1.5, "RD/GN");
    for (let i = 0; i < 2; i++) d.wire(pin("ground", "ground"), this.ground(), 2.5, "BN");
    d.wire(this.fuse("Wake", "switched"), pin("key", "input"), 0.5, "BK/GN");
    d.wire(pin("5 V", "supply-out"), sensorFeed, 0.75, "OG/WH");
    d.wire(pin("sensor ground", "sensor-ground"), sensorGround, 0.75, "BN/WH");
    return { part, feed, sensorFeed, sensorGround, pin, pins };
  }

  /** A relay that a controller works, and its load. */
  driven(c: Controller, label: string, kind: "pump" | "fan" | "motor", from = this.fuse(label)): string {
    const d = this.draft;
    const relay = d.part("K", "relay", label);
    const load = d.part("M", "motor", label, { kind });
    d.wire(from, `${relay}.30`, 4, "RD/WH");
    d.wire(c.feed, `${relay}.86`, 0.75, "RD/GN");
    d.wire(`${relay}.85`, c.pin(`${label.toLowerCase()} relay`, "low-side"), 0.75, "VT/WH");
    d.wire(`${relay}.87`, `${load}.+`, 4, "OG");
    d.wire(`${load}.-`, this.ground(), 4, "BN");
    return from;
  }

  injectors(c: Controller, count: number): void {
    const d = this.draft;
    const relay = d.part("K", "relay", "Fuel");
    const rail = `${d.part("XS", "splice", "Fuel")}.1`;
    const pump = d.part("M", "motor", "Lift pump", { kind: "pump" });
    d.wire(this.fuse("Fuel"), `${relay}.30`, 2.5, "RD/YE");
    d.wire(c.feed, `${relay}.86`, 0.75, "RD/GN");
    d.wire(`${relay}.85`, c.pin("fuel relay", "low-side"), 0.75, "VT/BK");
    d.wire(`${relay}.87`, rail, 2.5, "GN");
    d.wire(rail, `${pump}.+`, 2.5, "GN");
    d.wire(`${pump}.-`, this.ground(), 2.5, "BN");
    for (let i = 1; i <= count; i++) {
      const y = d.part("Y", "resistor", `Injector ${i}`, { ohms: "12 ohm" });
      d.wire(rail, `${y}.a`, 1, "GN");
      d.wire(`${y}.b`, c.pin(`injector ${i}`, "low-side"), 1, "BU/WH");
    }
  }

  /** Lamps on a relay that a switch works. */
  lamps(label: string, count: number, tap: string, from = this.fuse(label)): string {
    const d = this.draft;
    const [sw, relay] = [d.part("S", "switch", label), d.part("K", "relay", label)];
    d.wire(tap, `${sw}.1`, 1, "WH");
    d.wire(`${sw}.2`, `${relay}.86`, 0.75, "WH/BK");
    d.wire(`${relay}.85`, this.ground(), 0.75, "BN");
    d.wire(from, `${relay}.30`, 2.5, "RD/GY");
    const rail = count > 2 ? `${d.part("XS", "splice", label)}.1` : `${relay}.87`;
    if (count > 2) d.wire(`${relay}.87`, rail, 2.5, "YE/WH");
    for (let i = 0; i < count; i++) {
      const e = d.part("E", "lamp", `${label} ${i + 1}`);
      d.wire(rail, `${e}.a`, 1.5, "YE/WH");
      d.wire(`${e}.b`, this.ground(), 1.5, "BN");
    }
    return from;
  }

  /** A tell-tale that a controller or a pressure switch works. */
  tellTale(tap: string, label: string, c: Controller | undefined): void {
    const d = this.draft;
    const lamp = d.part("P", "lamp", label);
    d.wire(tap, `${lamp}.a`, 0.5, "BK/WH");
    if (c !== undefined) d.wire(`${lamp}.b`, c.pin(`${label.toLowerCase()} lamp`, "low-side"), 0.5, "VT/GY");
    else {
      const sw = d.part("S", "switch", label, { kind: "pressure" });
      d.wire(`${lamp}.b`, `${sw}.1`, 0.5, "GY/BK");
      d.wire(`${sw}.2`, this.ground(), 0.5, "BN");
    }
  }

  sensor(c: Controller, label: string): void {
    const b = this.draft.part("B", "resistor", label, { ohms: "2 kohm" });
    this.draft.wire(c.pin(label.toLowerCase(), "input"), `${b}.a`, 0.5, "GY/RD");
    this.draft.wire(`${b}.b`, c.sensorGround, 0.5, "BN/WH");
  }

  /** A sensor with a feed, a signal and a ground of its own. */
  sender(c: Controller, label: string): void {
    const d = this.draft;
    if (!d.definitions.some((x) => x.id === "invented-sender"))
      d.definitions.push({
        id: "invented-sender",
        family: "module",
        kind: "unit",
        from: { kind: "invented" },
        pins: [
          { pin: "1", name: "+", kind: "supply" },
          { pin: "2", name: "S", kind: "plain" },
          { pin: "3", name: "-", kind: "ground" },
        ],
      });
    const b = d.part("B", "module", label, { of: "invented-sender" });
    d.wire(c.sensorFeed, `${b}.1`, 0.5, "OG/WH");
    d.wire(c.pin(label.toLowerCase(), "input"), `${b}.2`, 0.5, "WH/GN");
    d.wire(`${b}.3`, c.sensorGround, 0.5, "BN/WH");
  }

  /** A switch to ground that a controller reads. */
  request(c: Controller, label: string): void {
    const s = this.draft.part("S", "switch", label);
    this.draft.wire(c.pin(label.toLowerCase(), "input"), `${s}.1`, 0.5, "GY/BU");
    this.draft.wire(`${s}.2`, this.ground(), 0.5, "BN");
  }

  loom(title: string): Loom {
    const { parts, wires, definitions } = this.draft;
    const reference = `${this.battery}.-`;
    return loomSchema.parse({ format: "loomproof/1", title, system: { reference }, definitions, parts, wires });
  }
}

/** A tractor, all of it invented: a controller of 25 pins, 9 fuses, 9 relays. The tests count its parts and wires. */
export function inventedTractor(): Loom {
  const b = new Blocks();
  const c = b.controller("Controller");
  b.injectors(c, 3);
  const fans = b.driven(c, "Fan", "fan");
  b.driven(c, "Heater", "motor", fans);
  b.driven(c, "Valve", "motor", fans);
  const lights = b.fuse("Lights", "switched");
  const power = b.lamps("Head lamps", 3, lights);
  b.lamps("Work lamps", 2, `${b.key}.75`, power);
  b.lamps("Beacon", 1, lights, power);
  const tell = b.fuse("Tell-tales", "switched");
  b.tellTale(tell, "Oil", undefined);
  b.tellTale(tell, "Check", c);
  for (const label of ["Coolant", "Air", "Oil level", "Fuel level"]) b.sensor(c, label);
  for (const label of ["Throttle", "Manifold"]) b.sender(c, label);
  for (const label of ["Take-off", "Brake", "Clutch"]) b.request(c, label);
  return b.loom("Tractor (invented)");
}

/** The same kind of thing, with as many circuits as wanted. */
export function inventedMachine(circuits: number): Loom {
  const b = new Blocks();
  const controllers = ["Engine", "Body"].map((l) => b.controller(l));
  const [engine, body] = controllers as [Controller, Controller];
  b.injectors(engine, 4);
  for (let i = 0; i < circuits; i++) {
    const c = i % 2 === 0 ? engine : body;
    b.driven(c, `Motor ${i + 1}`, i % 3 === 0 ? "fan" : "motor");
    b.lamps(`Lamps ${i + 1}`, 1 + (i % 4), b.fuse(`Switch ${i + 1}`, "switched"));
    b.tellTale(b.fuse(`Tell ${i + 1}`, "switched"), `Tell ${i + 1}`, i % 2 === 0 ? undefined : c);
    b.sensor(c, `Sensor ${i + 1}`);
    b.sender(c, `Sender ${i + 1}`);
    b.request(c, `Request ${i + 1}`);
  }
  return b.loom(`Machine with ${circuits} circuits (invented)`);
}
