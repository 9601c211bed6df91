import type {
  Capacitance,
  Coil,
  Element,
  Guard,
  Input,
  Latch,
  Load,
  Output,
  Pole,
  Sense,
  Unknown,
  Work,
} from "./circuit.ts";

/** The lists that compiling fills. */
export interface Draft {
  readonly nodes: string[];
  readonly nodeOf: Map<string, number>;
  readonly elements: Element[];
  readonly loads: Load[];
  readonly inputs: Input[];
  readonly latches: Latch[];
  readonly coils: Coil[];
  readonly capacitances: Capacitance[];
  readonly poles: Pole[];
  readonly guards: Guard[];
  readonly works: Work[];
  readonly controllers: string[];
  readonly outputs: Output[];
  readonly senses: Sense[];
  readonly unknowns: Unknown[];
  /** Terminals that a wire ends at. */
  readonly wired: ReadonlySet<string>;
  readonly wireElement: Map<string, number>;
  readonly contactsOf: Map<string, number[]>;
}

export const emptyDraft = (wired: ReadonlySet<string>): Draft => ({
  nodes: [],
  nodeOf: new Map(),
  elements: [],
  loads: [],
  inputs: [],
  latches: [],
  coils: [],
  capacitances: [],
  poles: [],
  guards: [],
  works: [],
  controllers: [],
  outputs: [],
  senses: [],
  unknowns: [],
  wired,
  wireElement: new Map(),
  contactsOf: new Map(),
});

/** The node of a terminal or an inside place; made when first named. */
export function nodeAt(draft: Draft, name: string): number {
  const known = draft.nodeOf.get(name);
  if (known !== undefined) return known;
  const index = draft.nodes.push(name) - 1;
  draft.nodeOf.set(name, index);
  return index;
}
