import type { Atom, Condition, EnginePhase, ModuleDefinition, Term } from "@loomproof/netlist";
import { type Literal, type LiteralSet, type Logic, NEVER, whileOn } from "./circuit.ts";
import type { Door } from "./door.ts";
import { type EngineLatches, phaseLogic } from "./engine.ts";
import type { Context } from "./families.ts";

/** Latches of a module by the names that its logic uses. */
export interface ModuleLatches {
  awake: number | undefined;
  readonly pins: Map<string, number>;
  readonly states: Map<string, number>;
  readonly primes: Map<number, number>;
  readonly phases: Map<string, number>;
}

/** What a condition needs to become logic over latches and inputs. */
export interface LogicContext {
  readonly door: Door;
  readonly context: Context;
  readonly latches: ModuleLatches;
  readonly definition: ModuleDefinition;
}

const constant = (is: boolean): Literal => ({ kind: "constant", is });

/** Turns a condition of the file into logic. Volts atoms become level latches of their own. */
export function compileCondition(condition: Condition, about: LogicContext): Logic {
  return condition.map((terms) => terms.map((term) => compileTerm(term, about)));
}

const compileTerm = (term: Term, about: LogicContext): LiteralSet => ({
  negated: term.kind === "not",
  literals: term.atoms.map((atom) => compileAtom(atom, about)),
});

function compileAtom(atom: Atom, about: LogicContext): Literal {
  const { door, context, latches } = about;
  switch (atom.kind) {
    case "awake":
      return latches.awake === undefined ? constant(atom.is) : { kind: "latch", latch: latches.awake, is: atom.is };
    case "pin": {
      const latch = latches.pins.get(atom.pin);
      return latch === undefined ? constant(!atom.active) : { kind: "latch", latch, is: atom.active };
    }
    case "state": {
      const latch = latches.states.get(atom.state);
      return latch === undefined ? constant(!atom.is) : { kind: "latch", latch, is: atom.is };
    }
    case "engine": {
      const engine = context.engineNamed();
      // A loom without an engine has none running.
      return engine === undefined
        ? constant(atom.phases.includes("stopped"))
        : { kind: "latch", latch: phaseLatch(atom.phases, engine, about), is: true };
    }
    case "input": {
      const named = context.inputNamed(atom.input);
      if (named === undefined) return constant(false);
      return { kind: "input", input: named.index, stands: named.input.stands.map((s) => s === atom.value) };
    }
    case "since-wake":
      return { kind: "latch", latch: primed(atom.seconds, about), is: false };
    case "volts":
      return { kind: "latch", latch: levelOf(door, atom), is: true };
    default:
      return atom satisfies never;
  }
}

/** A latch that is on while the engine is in any of these phases. */
function phaseLatch(phases: readonly EnginePhase[], engine: EngineLatches, { door, latches }: LogicContext): number {
  const name = phases.join(" or ");
  const known = latches.phases.get(name);
  if (known !== undefined) return known;
  const logic = phases.flatMap((phase) => phaseLogic(phase, engine));
  const latch = door.latch({ id: `${door.part}/engine ${name}`, kind: "state", drive: { kind: "logic", logic } });
  latches.phases.set(name, latch);
  return latch;
}

/** A latch that goes on when the module has been awake for so long. */
function primed(seconds: number, { door, latches }: LogicContext): number {
  const known = latches.primes.get(seconds);
  if (known !== undefined) return known;
  const logic: Logic = latches.awake === undefined ? NEVER : [[whileOn(latches.awake)]];
  const latch = door.latch({
    id: `${door.part}/awake for ${seconds} s`,
    kind: "state",
    drive: { kind: "logic", logic },
    onTime: { least: seconds, most: seconds },
  });
  latches.primes.set(seconds, latch);
  return latch;
}

function levelOf(door: Door, atom: Extract<Atom, { kind: "volts" }>): number {
  const { from, to, above, below } = atom;
  return door.latch({
    id: `${door.part}/${from} over ${to} above ${above} V`,
    label: `${from} above ${above} V`,
    kind: "level",
    drive: { kind: "volts", a: door.node(door.terminal(from)), b: door.node(door.terminal(to)), sign: 1 },
    on: { least: above, most: above },
    off: { least: below, most: below },
  });
}
