import { contactsOf, nets, type Part, type ResolvedLoom, sidesOf, standardJoins } from "@loomproof/netlist";

// Which end of everything is nearer to feed, with every gate closed: battery + is 1, battery − and ground are 0. A rough
// network of resistances, relaxed; only the order of its values is used.

interface Link {
  readonly a: string;
  readonly b: string;
  readonly siemens: number;
}

/** By terminal. */
export type Potentials = ReadonlyMap<string, number>;

const CONTACT = 2;
const LOAD = 0.05;
const COIL = 0.03;
const ROUNDS = 2000;
const AT_REST = 1e-7;
/** Closer than this is level: the order of what is drawn then hangs on nothing that is left of rounding. */
const STEP = 1e-5;

/** Links inside a part. Module pins hang on an inside feed and an inside ground of their own. */
function linksIn(part: Part): readonly Link[] {
  const t = (name: string) => `${part.id}.${name}`;
  const pairs = (joins: Readonly<Record<string, readonly (readonly [string, string])[]>>) =>
    Object.values(joins)
      .flat()
      .map(([a, b]) => ({ a: t(a), b: t(b), siemens: CONTACT }));
  switch (part.family) {
    case "key-switch":
      return pairs(part.values.joins);
    case "switch":
      return pairs(part.values.joins ?? standardJoins(part.kind));
    case "relay":
      return [
        ...part.values.windings.map((w) => ({ a: t(w.between[0]), b: t(w.between[1]), siemens: COIL })),
        ...contactsOf(part.values.contacts, part.kind).flatMap((c) =>
          [c.make, c.break].flatMap((o) => (o === undefined ? [] : [{ a: t(c.common), b: t(o), siemens: CONTACT }])),
        ),
      ];
    case "module":
      return part.definition.pins.map((p) => {
        const toFeed = p.kind === "supply" || p.kind === "high-side" || p.kind === "supply-out";
        const siemens =
          p.kind === "supply" || p.kind === "ground" || p.kind === "sensor-ground"
            ? 1
            : p.kind === "input"
              ? 0.01
              : 0.05;
        return { a: t(p.pin), b: `${part.id}/${toFeed ? "feed" : "ground"}`, siemens };
      });
    case "protector":
      return [{ a: t("a"), b: t("b"), siemens: CONTACT }];
    case "diode":
      return [{ a: t("A"), b: t("K"), siemens: 1 }];
    case "resistor":
      return [{ a: t("a"), b: t("b"), siemens: 0.2 }];
    case "lamp":
    case "heater":
      return [{ a: t("a"), b: t("b"), siemens: LOAD }];
    case "ignition-coil":
      return part.kind === "own-driver"
        ? [
            { a: t("15"), b: t("31"), siemens: LOAD },
            { a: t("1"), b: t("31"), siemens: 0.01 },
          ]
        : [{ a: t("15"), b: t("1"), siemens: LOAD }];
    case "injector":
      return [{ a: t("1"), b: t("2"), siemens: LOAD }];
    case "starter":
      return [
        { a: t("30"), b: t("31"), siemens: LOAD },
        { a: t("50"), b: t("31"), siemens: LOAD },
      ];
    case "alternator":
      return [{ a: t("D+"), b: t("31"), siemens: LOAD }];
    case "capacitor":
      return [{ a: t("+"), b: t("-"), siemens: 0.001 }];
    case "connector":
      return part.values.cavities.map((cavity) => {
        const [a, b] = sidesOf(cavity);
        return { a: t(a), b: t(b), siemens: CONTACT };
      });
    case "led":
    case "motor":
      return [{ a: t("+"), b: t("-"), siemens: LOAD }];
    case "battery":
    case "engine":
    case "splice":
    case "ground-point":
      return [];
    default:
      return part satisfies never;
  }
}

/** Potential of each terminal, 0 to 1. */
export function potentialsOf(loom: ResolvedLoom): Potentials {
  // Terminals that wires join are one point: as separate ones they would take long to come to rest.
  const points = pointsOf(loom);
  const at = (terminal: string): string => points.get(terminal) ?? terminal;
  const fixed = new Map<string, number>();
  const near = new Map<string, { readonly to: string; readonly siemens: number }[]>();
  const add = ({ a, b, siemens }: Link) => {
    for (const [x, y] of [
      [at(a), at(b)],
      [at(b), at(a)],
    ] as const)
      if (x !== y) near.set(x, [...(near.get(x) ?? []), { to: y, siemens }]);
  };
  for (const part of loom.parts) {
    for (const link of linksIn(part)) add(link);
    if (part.family === "battery") fixed.set(at(`${part.id}.+`), 1).set(at(`${part.id}.-`), 0);
    if (part.family === "ground-point") fixed.set(at(`${part.id}.1`), 0);
    if (part.caseAt !== undefined)
      for (const t of part.terminals) if (t.needs === "wire or case") fixed.set(at(`${part.id}.${t.name}`), 0);
  }
  const value = new Map([...near.keys()].map((k) => [k, fixed.get(k) ?? 0.5]));
  for (let round = 0; round < ROUNDS; round++) {
    let change = 0;
    for (const [k, list] of near) {
      if (fixed.has(k)) continue;
      let sum = 0;
      let weight = 0;
      for (const { to, siemens } of list) {
        sum += siemens * (value.get(to) ?? 0.5);
        weight += siemens;
      }
      const next = sum / weight;
      change = Math.max(change, Math.abs(next - (value.get(k) ?? 0)));
      value.set(k, next);
    }
    if (change < AT_REST) break;
  }
  const all = loom.parts.flatMap((p) => p.terminals.map((t) => `${p.id}.${t.name}`));
  const rounded = (v: number) => Math.round(v / STEP) * STEP;
  return new Map(all.map((t) => [t, rounded(value.get(at(t)) ?? fixed.get(at(t)) ?? 0.5)]));
}

/** For each wired terminal, one that stands for all that wires join to it. */
function pointsOf(loom: ResolvedLoom): ReadonlyMap<string, string> {
  const points = new Map<string, string>();
  for (const { terminals } of nets(loom)) for (const t of terminals) points.set(t, terminals[0] ?? t);
  return points;
}
