import type { Circuit, Element } from "../circuit/circuit.ts";
import { ampsAt, type Network, type Values } from "../solve/network.ts";
import { type HangingScratch, hangingScratch } from "./hanging.ts";
import type { Tree } from "./topology.ts";

// What the trunk asks of each element, worked out once: it is asked in thousands of states.

/** Joints of more ohms than this are no trunk. */
const MOST_OHMS = 0.5;
/** Volts for which the greatest currents are taken. */
const MOST_VOLTS = 15;

/** What hangs on what: the same for all values. */
export interface Grid {
  readonly reference: number;
  readonly nodes: number;
  readonly elements: number;
  /** Ends of each element. */
  readonly a: Int32Array;
  readonly b: Int32Array;
  /** Elements at node `n`: `incident[offsets[n]]` to before `incident[offsets[n + 1]]`. */
  readonly offsets: Int32Array;
  readonly incident: Int32Array;
  /** Wires, contacts and other joints that make a trunk of what they join. */
  readonly isJoint: Uint8Array;
  /** Sources stiff enough to hold a trunk. */
  readonly poles: readonly number[];
  readonly isPole: Uint8Array;
  readonly scratch: HangingScratch;
}

/** What elements give and take, under the values of one network. */
export interface Ratings {
  readonly ohms: Float64Array;
  /** Volts of a source without current. */
  readonly emf: Float64Array;
  /** The most that a load or a drawn resistance takes; gates and conductors only pass on. */
  readonly mostAmps: Float64Array;
  /** The most that an element passes from `a` to `b`, and from `b` to `a`; without bound if it only joins. */
  readonly passesOn: Float64Array;
  readonly passesBack: Float64Array;
  /** Volts of each trunk with nothing drawn, by node. */
  readonly idle: WeakMap<Tree, Float64Array>;
  /** What a look writes on and nobody keeps; all by node. */
  readonly scratch: {
    readonly pulls: Float64Array;
    readonly own: Float64Array;
    readonly lost: Float64Array;
  };
}

const grids = new WeakMap<Circuit, Grid>();
const ratings = new WeakMap<Network["values"], Ratings>();

export function gridOf(circuit: Circuit): Grid {
  let grid = grids.get(circuit);
  if (grid === undefined) {
    grid = makeGrid(circuit);
    grids.set(circuit, grid);
  }
  return grid;
}

export function ratingsOf(network: Network): Ratings {
  let own = ratings.get(network.values);
  if (own === undefined) {
    own = makeRatings(network);
    ratings.set(network.values, own);
  }
  return own;
}

function makeGrid({ elements, nodes, reference }: Circuit): Grid {
  const offsets = new Int32Array(nodes.length + 1);
  for (const e of elements) for (const n of new Set([e.a, e.b])) (offsets[n + 1] as number) += 1;
  for (let n = 0; n < nodes.length; n++) (offsets[n + 1] as number) += offsets[n] as number;
  const incident = new Int32Array(offsets[nodes.length] as number);
  const next = offsets.slice();
  elements.forEach((e, i) => {
    for (const n of new Set([e.a, e.b])) incident[(next[n] as number)++] = i;
  });
  const isPole = Uint8Array.from(elements, (e) =>
    e.class === "source" && e.ohms <= MOST_OHMS && e.mostAmps === undefined ? 1 : 0,
  );
  return {
    reference,
    nodes: nodes.length,
    elements: elements.length,
    a: Int32Array.from(elements, (e) => e.a),
    b: Int32Array.from(elements, (e) => e.b),
    offsets,
    incident,
    isJoint: Uint8Array.from(elements, (e) => (isJoint(e) ? 1 : 0)),
    isPole,
    poles: [...isPole.keys()].filter((i) => isPole[i] === 1),
    scratch: hangingScratch(nodes.length, elements.length),
  };
}

function makeRatings({ circuit, values }: Network): Ratings {
  const { elements, nodes } = circuit;
  return {
    ohms: Float64Array.from(elements, (e, i) => (e.class === "source" ? e.ohms : 1 / (values.siemens[i] as number))),
    // A regulated source is a curve; its volts without current are where its last piece begins.
    emf: Float64Array.from(elements, (_, i) => values.pieces[i]?.at(-1)?.from ?? (values.emf[i] as number)),
    mostAmps: Float64Array.from(elements, (e, i) => (draws(e) ? Math.abs(ampsAt(values, i, MOST_VOLTS)) : 0)),
    passesOn: Float64Array.from(elements, (e, i) => passes(values, e, i, MOST_VOLTS)),
    passesBack: Float64Array.from(elements, (e, i) => passes(values, e, i, -MOST_VOLTS)),
    idle: new WeakMap(),
    scratch: {
      pulls: new Float64Array(nodes.length),
      own: new Float64Array(nodes.length),
      lost: new Float64Array(nodes.length),
    },
  };
}

const isJoint = (e: Element): boolean =>
  (e.class === "gate" || (e.class === "conductor" && !e.series)) && e.curve === undefined && e.ohms <= MOST_OHMS;

const draws = (e: Element): boolean => e.class === "load" || (e.class === "stray" && e.curve === undefined) || e.series;

function passes(values: Values, e: Element, i: number, volts: number): number {
  const isBounded = values.pieces[i] !== undefined || e.class === "load" || e.class === "stray" || e.series;
  if (isBounded) return Math.abs(ampsAt(values, i, volts));
  return e.oneWay && volts < 0 ? 0 : Number.POSITIVE_INFINITY;
}
