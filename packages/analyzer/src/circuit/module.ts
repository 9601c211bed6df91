import {
  type DrawPoint,
  MODULE_DEFAULTS,
  type ModuleDefinition,
  type PartWith,
  type Pin,
  type Rail,
} from "@loomproof/netlist";
import { ALWAYS, type LiteralSet, type Logic, whileOn } from "./circuit.ts";
import { type Curve, plainDiode, siliconDiode, withZener } from "./curve.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { compileCondition, type LogicContext, type ModuleLatches } from "./module-logic.ts";
import { freely } from "./positions.ts";

const CLAMP_ZENER_OHMS = 1;

/** A controller, power module or other electronics, from its pin table, rails, inside elements and logic. */
export function moduleFamily(part: PartWith<"module">, door: Door, context: Context): void {
  const { definition } = part;
  const latches: ModuleLatches = {
    awake: undefined,
    pins: new Map(),
    states: new Map(),
    primes: new Map(),
    phases: new Map(),
  };
  const about: LogicContext = { door, context, latches, definition };
  if (definition.kind === "controller") door.controls();
  putGrounds(definition, door);
  const rails = definition.rails.map((rail) => putRail(rail, door));
  putInputs(definition, door, latches);
  putStates(about);
  putAwake(about, rails);
  const on = definition.states.filter((s) => s.counts).flatMap((s) => latches.states.get(s.id) ?? []);
  const counting = latches.awake === undefined ? on : [latches.awake, ...on];
  for (const latch of on) door.works(latch);
  for (const rail of definition.rails) putDraw(rail, door, counting);
  for (const pin of definition.pins) putPin(pin, about);
  putInside(about, counting);
}

const ground = (door: Door): string => door.inside("ground");
const railNode = (door: Door, id: string): string => door.inside(`rail ${id}`);

function putGrounds(definition: ModuleDefinition, door: Door): void {
  for (const pin of definition.pins)
    if (pin.kind === "ground" || pin.kind === "sensor-ground")
      door.conductor({
        from: door.terminal(pin.pin),
        to: ground(door),
        says: `ground pin ${pin.pin}`,
        ohms: MODULE_DEFAULTS.insideGroundOhms,
      });
}

/** Joins a rail to its supply pins and makes the latch that says whether it is up. */
function putRail(rail: Rail, door: Door): number {
  const to = railNode(door, rail.id);
  for (const pin of rail.fedBy) {
    const from = door.terminal(pin);
    const says = `supply from pin ${pin}`;
    if (rail.through === "none") door.conductor({ from, to, says, ohms: MODULE_DEFAULTS.insideGroundOhms });
    else if (rail.through === "diode") door.diode({ from, to, says, curve: siliconDiode });
    // A blocking transistor passes current one way with hardly a drop.
    else door.channel({ from, to, says, ohms: MODULE_DEFAULTS.insideGroundOhms, oneWay: true });
  }
  return door.latch({
    id: `${door.part}/rail ${rail.id}`,
    kind: "rail",
    drive: { kind: "volts", a: door.node(to), b: door.node(ground(door)), sign: 1 },
    on: rail.wakesAt,
    off: rail.resetsAt,
  });
}

function putInputs(definition: ModuleDefinition, door: Door, latches: ModuleLatches): void {
  for (const pin of definition.pins) {
    if (pin.saysWants) door.sense(door.terminal(pin.pin), pin.wants);
    if (pin.kind !== "input") continue;
    const toBattery = pin.wants === "battery";
    const [on, off] = toBattery ? [pin.high, pin.low] : [-pin.low, -pin.high];
    const latch = door.latch({
      id: `${door.part}.${pin.pin}`,
      label: pin.name,
      kind: "level",
      drive: {
        kind: "volts",
        a: door.node(door.terminal(pin.pin)),
        b: door.node(ground(door)),
        sign: toBattery ? 1 : -1,
      },
      on: { least: on, most: on },
      off: { least: off, most: off },
    });
    latches.pins.set(pin.pin, latch);
  }
}

function putStates(about: LogicContext): void {
  const { definition, door, latches } = about;
  for (const state of definition.states)
    latches.states.set(
      state.id,
      door.latch({
        id: `${door.part}/${state.id}`,
        kind: "state",
        drive: { kind: "logic", logic: compileCondition(state.when, about) },
        onTime: state.on,
        offTime: state.off,
      }),
    );
}

function putAwake(about: LogicContext, rails: readonly number[]): void {
  const { definition, door, latches } = about;
  const [rail] = rails;
  if (rail === undefined) {
    latches.awake = latches.states.get("awake") ?? latches.states.get("alive");
    return;
  }
  const up = whileOn(rail);
  const wake: Logic = definition.awake === undefined ? ALWAYS : compileCondition(definition.awake, about);
  latches.awake = door.latch({
    id: `${door.part}/awake`,
    kind: "awake",
    drive: { kind: "logic", logic: wake.map((sets) => [up, ...sets]) },
    onTime: definition.boot,
    offTime: definition.stayAwake,
    neverTimer: true,
    needs: rail,
  });
}

/** What the module draws, as a curve at both ends of its spread. */
function putDraw(rail: Rail, door: Door, counting: readonly number[]): void {
  if (rail.draw.length === 0) return;
  const curve = { least: drawCurve(rail.draw, "least"), most: drawCurve(rail.draw, "most") };
  const ratedAmps = rail.draw[rail.draw.length - 1]?.amps.most ?? 0;
  door.load(
    { from: railNode(door, rail.id), to: ground(door), says: "its own draw", curve },
    { kind: "latches", latches: counting, ratedAmps, partlyVolts: rail.resetsAt.least },
  );
}

function drawCurve(points: readonly DrawPoint[], end: "least" | "most"): Curve {
  let highest = 0;
  const rising = points.map((p) => {
    // A falling piece would make the solution ambiguous; the curve keeps its highest current instead.
    highest = Math.max(highest, p.amps[end]);
    return [p.volts, highest] as const;
  });
  const all = (rising[0]?.[0] ?? 0) > 0 ? [[0, 0] as const, ...rising] : rising;
  return { volts: all.map((p) => p[0]), amps: all.map((p) => p[1]), slopeBelow: 0, slopeAbove: 0 };
}

function putPin(pin: Pin, about: LogicContext): void {
  const { door, definition } = about;
  const terminal = door.terminal(pin.pin);
  door.node(terminal);
  const firstRail = definition.rails[0];
  const rail = firstRail === undefined ? undefined : railNode(door, firstRail.id);
  const active = () => activeLogic(pin, about);
  switch (pin.kind) {
    case "low-side":
      door.output({
        from: terminal,
        to: ground(door),
        says: `driver of pin ${pin.pin}`,
        ohms: pin.ohms,
        closed: active(),
      });
      putBodyDiode(pin, ground(door), terminal, door);
      putClamp(pin, rail, (id) => definition.rails.some((r) => r.id === id), door);
      break;
    case "high-side":
    case "half-bridge": {
      const feed =
        pin.feed === undefined
          ? rail
          : definition.rails.some((r) => r.id === pin.feed)
            ? railNode(door, pin.feed)
            : door.terminal(pin.feed);
      if (feed === undefined) break;
      door.output({
        from: feed,
        to: terminal,
        says: `channel of pin ${pin.pin}`,
        ohms: pin.ohms,
        closed: active(),
        givesBoth: pin.kind === "half-bridge",
      });
      putBodyDiode(pin, terminal, feed, door);
      if (pin.kind === "half-bridge") putBodyDiode(pin, ground(door), terminal, door);
      break;
    }
    case "input":
      if (rail !== undefined && pin.limitDiode !== "no")
        door.stray({
          from: terminal,
          to: rail,
          says: `protection diode of pin ${pin.pin}`,
          curve: siliconDiode,
          unknown:
            pin.limitDiode === "unknown"
              ? door.unknown(pin.pin, "diode", `if pin ${pin.pin} has a diode to its supply`)
              : undefined,
        });
      putBias(pin, about, rail);
      break;
    case "supply-out":
      door.source({
        from: terminal,
        to: ground(door),
        says: `regulated ${pin.volts} V`,
        emf: pin.volts,
        ohms: pin.ohms,
        oneWay: true,
        feeds: true,
        closed: awakeLogic(about),
      });
      break;
    case "supply":
    case "ground":
    case "sensor-ground":
    case "plain":
      break;
    default:
      pin.kind satisfies never;
  }
}

const awakeLogic = ({ latches }: LogicContext): Logic =>
  latches.awake === undefined ? ALWAYS : [[whileOn(latches.awake)]];

/**
 * When an output acts: its logic (or its request) while the module is awake, or while a wake pin carries the logic
 * alone (this is how a controller pulls in its own main relay).
 */
function activeLogic(pin: Pin, about: LogicContext): Logic {
  const { definition, latches, door } = about;
  const known = definition.on.get(pin.pin);
  const { awake } = latches;
  const carriers = definition.pins
    .filter((p) => p.wakes && p.wakeFeeds.includes(pin.pin))
    .flatMap((p) => latches.pins.get(p.pin) ?? []);
  const heededBy = awake === undefined ? undefined : [awake, ...carriers];
  const logic = known === undefined ? requestLogic(pin, door, heededBy) : compileCondition(known, about);
  if (awake === undefined) return logic;
  const whenAwake = logic.map((sets) => [whileOn(awake), ...sets]);
  const carried = carriers.flatMap((latch) =>
    logic.map((sets) => [whileOn(latch), ...sets.map((s) => asIfAwake(s, awake))]),
  );
  return [...whenAwake, ...carried];
}

const asIfAwake = (set: LiteralSet, awake: number): LiteralSet => ({
  negated: set.negated,
  literals: set.literals.map((l) => (l.kind === "latch" && l.latch === awake ? { kind: "constant", is: l.is } : l)),
});

function requestLogic(pin: Pin, door: Door, heededBy: readonly number[] | undefined): Logic {
  const input = door.input({
    id: door.terminal(pin.pin),
    kind: "request",
    label: pin.name,
    stands: ["off", "on"],
    positions: 2,
    usual: 0,
    moves: freely(2),
    module: door.part,
    heededBy,
    isKey: false,
  });
  return [[{ negated: false, literals: [{ kind: "input", input, stands: [false, true] }] }]];
}

function putBodyDiode(pin: Pin, from: string, to: string, door: Door): void {
  if (pin.bodyDiode === "no") return;
  const unknown =
    pin.bodyDiode === "unknown"
      ? door.unknown(pin.pin, "body diode", `if pin ${pin.pin} passes current backwards`)
      : undefined;
  door.stray({ from, to, says: `body diode of pin ${pin.pin}`, curve: siliconDiode, unknown });
}

function putClamp(pin: Pin, rail: string | undefined, isRail: (id: string) => boolean, door: Door): void {
  const { clamp } = pin;
  const from = door.terminal(pin.pin);
  const says = `clamp diode of pin ${pin.pin}`;
  if (clamp.kind === "diode") {
    const to = isRail(clamp.to) ? railNode(door, clamp.to) : door.terminal(clamp.to);
    door.stray({ from, to, says, curve: siliconDiode });
  } else if (clamp.kind === "zener") {
    door.stray({
      from: ground(door),
      to: from,
      says: `clamp zener of pin ${pin.pin}`,
      curve: withZener(siliconDiode, clamp.volts, CLAMP_ZENER_OHMS),
    });
  } else if (clamp.kind === "unknown" && rail !== undefined) {
    const unknown = door.unknown(pin.pin, "diode", `if pin ${pin.pin} has a diode to its supply`);
    door.stray({ from, to: rail, says, curve: siliconDiode, unknown });
  }
}

function putBias(pin: Pin, { door, definition }: LogicContext, rail: string | undefined): void {
  if (pin.bias === undefined) return;
  const from = door.terminal(pin.pin);
  const { bias } = pin;
  if (bias.way === "down") {
    door.stray({ from, to: ground(door), says: `pull-down of pin ${pin.pin}`, ohms: bias.ohms });
    return;
  }
  const toPin = definition.pins.find((p) => p.pin === bias.to || p.name === bias.to);
  const to = toPin === undefined ? rail : door.terminal(toPin.pin);
  if (to !== undefined) door.stray({ from: to, to: from, says: `pull-up of pin ${pin.pin}`, ohms: bias.ohms });
}

function putInside(about: LogicContext, counting: readonly number[]): void {
  const { door, definition, context } = about;
  for (const e of definition.inside) {
    const closed: Logic = e.when === undefined ? ALWAYS : compileCondition(e.when, about);
    const between = { from: door.terminal(e.between[0]), to: door.terminal(e.between[1]), says: e.says, closed };
    if (e.kind === "driver") door.output({ ...between, ohms: e.ohms });
    else if (e.kind === "diode") door.stray({ ...between, curve: plainDiode(e.drop, e.ohms) });
    else if (e.kind === "source")
      door.source({ ...between, emf: e.volts, ohms: e.ohms, oneWay: e.oneWay, feeds: e.as !== "stray" });
    else if (e.as === "stray") door.stray({ ...between, ohms: e.ohms });
    else if (e.as === "series") door.series({ ...between, ohms: e.ohms });
    else if (e.as === "conductor") door.conductor({ ...between, ohms: e.ohms });
    else {
      const ratedAmps = context.systemVolts / e.ohms;
      // Only electronics that say when they count as on can be found on unasked; the rest is mere resistance.
      door.load(
        { ...between, ohms: e.ohms },
        counting.length === 0
          ? undefined
          : { kind: "latches", latches: counting, ratedAmps, partlyVolts: MODULE_DEFAULTS.resetsAt.least },
      );
    }
  }
}
