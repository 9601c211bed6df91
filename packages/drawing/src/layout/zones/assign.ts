import { naturalOrder, type Part, type ResolvedLoom, type Wire } from "@loomproof/netlist";

// Which part is drawn in which zone: first what carries the battery's current without a fuse, then circuit by circuit,
// those of one controller together.

export interface Zoning {
  /** Zone of each part that has one; boxes that serve several zones and joints that many wires meet at have none. */
  readonly of: ReadonlyMap<string, number>;
  readonly names: readonly string[];
}

/** A box with at least so many wires is sliced: each zone shows the pins it uses. */
const HUB_WIRES = 8;
/** A joint with at least so many wires is shown in each zone that uses it. */
const RAIL_WIRES = 7;
const HEAVY_MM2 = 6;
const MOST_PARTS = 24;
/** Sensors stand in one row: fewer of them fill a sheet's width. */
const MOST_INPUTS = 14;
const LEAST_PARTS = 6;

interface Circuit {
  readonly parts: readonly string[];
  /** Parts that are drawn as symbols. */
  readonly size: number;
  readonly key: string;
  readonly name: string;
  readonly isInput: boolean;
  readonly hasRelay: boolean;
}

const isSymbol = (p: Part | undefined) => p !== undefined && p.family !== "splice" && p.family !== "ground-point";

export function zoningOf(loom: ResolvedLoom): Zoning {
  const parts = new Map(loom.parts.map((p) => [p.id, p]));
  const near = new Map<string, { readonly to: string; readonly terminal: string; readonly wire: Wire }[]>();
  for (const wire of loom.wires)
    for (const [own, far] of [
      [wire.from, wire.to],
      [wire.to, wire.from],
    ] as const)
      near.set(own.part, [...(near.get(own.part) ?? []), { to: far.part, terminal: far.terminal, wire }]);
  const wires = (id: string) => near.get(id)?.length ?? 0;
  const isHub = (id: string) => parts.get(id)?.family === "module" && wires(id) >= HUB_WIRES;
  const isGround = (id: string) => parts.get(id)?.family === "ground-point";
  const supply = new Set<string>();
  const open = loom.parts.filter((p) => p.family === "battery").map((p) => p.id);
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (supply.has(at) || isGround(at) || isHub(at)) continue;
    supply.add(at);
    if (parts.get(at)?.family === "protector") continue;
    for (const { to, wire } of near.get(at) ?? []) if ((wire.areaMm2 ?? 0) >= HEAVY_MM2) open.push(to);
  }
  const isRail = (id: string) => parts.get(id)?.family === "splice" && wires(id) >= RAIL_WIRES && !supply.has(id);
  const stands = (id: string) => !isHub(id) && !isRail(id) && !isGround(id) && !supply.has(id);
  const seen = new Set<string>();
  const circuits: Circuit[] = [];
  for (const { id } of loom.parts) {
    if (!stands(id) || seen.has(id)) continue;
    const members: string[] = [];
    const hubs = new Map<string, string[]>();
    const next = [id];
    seen.add(id);
    for (let at = next.pop(); at !== undefined; at = next.pop()) {
      members.push(at);
      for (const { to, terminal } of near.get(at) ?? []) {
        if (isHub(to)) hubs.set(to, [...(hubs.get(to) ?? []), terminal]);
        else if (stands(to) && !seen.has(to)) {
          seen.add(to);
          next.push(to);
        }
      }
    }
    circuits.push(circuitOf(members.sort(naturalOrder), hubs, parts));
  }
  // A few parts that hang on nothing but the supply, such as a diode across the start relay, stand there.
  const isOfSupply = (c: Circuit) =>
    c.key === "~" && c.size < LEAST_PARTS && c.parts.every((id) => !near.get(id)?.some(({ to }) => isRail(to)));
  let room = MOST_PARTS - sizeOf([...supply], parts);
  const others = circuits.sort(byReading).filter((c) => {
    if (!isOfSupply(c) || c.size > room) return true;
    room -= c.size;
    for (const id of c.parts) supply.add(id);
    return false;
  });
  return filled([...supply].sort(naturalOrder), others, parts);
}

const sizeOf = (ids: readonly string[], parts: ReadonlyMap<string, Part>): number =>
  ids.filter((id) => isSymbol(parts.get(id))).length;

const SENSING = new Set(["input", "supply-out", "sensor-ground", "plain"]);

function circuitOf(
  members: readonly string[],
  hubs: ReadonlyMap<string, readonly string[]>,
  parts: ReadonlyMap<string, Part>,
): Circuit {
  const [hub] = [...hubs.keys()].sort(naturalOrder);
  const part = parts.get(hub ?? "");
  const pins = part?.family === "module" ? part.definition.pins : [];
  const kinds = pins.filter((p) => hubs.get(hub ?? "")?.includes(p.pin)).map((p) => p.kind);
  const isInput = kinds.length > 0 && kinds.every((k) => SENSING.has(k));
  const title = part === undefined ? "" : part.label === "" ? part.id : `${part.id} ${part.label.toLowerCase()}`;
  return {
    parts: members,
    size: sizeOf(members, parts),
    key: hub === undefined ? "~" : `${hub} ${isInput ? 2 : 1}`,
    name: hub === undefined ? "Other circuits" : `${title}: ${isInput ? "sensors and requests" : "outputs"}`,
    isInput,
    hasRelay: members.some((m) => parts.get(m)?.family === "relay"),
  };
}

/** Controller by controller, outputs before inputs; circuits without any last. */
const byReading = (p: Circuit, q: Circuit): number =>
  (p.key === "~" ? 1 : 0) - (q.key === "~" ? 1 : 0) ||
  naturalOrder(p.key, q.key) ||
  Number(q.hasRelay) - Number(p.hasRelay) ||
  naturalOrder(p.parts[0] ?? "", q.parts[0] ?? "");

interface Zone {
  readonly key: string;
  readonly name: string;
  readonly parts: string[];
  size: number;
}

/** Circuits into zones, as even as can be; a zone of a few parts joins the one before it. */
function filled(supply: readonly string[], circuits: readonly Circuit[], parts: ReadonlyMap<string, Part>): Zoning {
  const zones: Zone[] = [{ key: "", name: "Supply", parts: [...supply], size: sizeOf(supply, parts) }];
  for (const c of circuits) {
    const most = c.isInput ? MOST_INPUTS : MOST_PARTS;
    const all = circuits.filter((o) => o.key === c.key).reduce((s, o) => s + o.size, 0);
    const even = Math.ceil(all / Math.ceil(all / most)) + 2;
    const last = zones.at(-1);
    if (last?.key === c.key && last.size + c.size <= even) {
      last.parts.push(...c.parts);
      last.size += c.size;
    } else zones.push({ key: c.key, name: c.name, parts: [...c.parts], size: c.size });
  }
  for (let i = zones.length - 1; i > 1; i--) {
    const [zone, before] = [zones[i] as Zone, zones[i - 1] as Zone];
    if (zone.size >= LEAST_PARTS) continue;
    before.parts.push(...zone.parts);
    before.size += zone.size;
    zones.splice(i, 1);
  }
  const kept = zones.filter((z) => z.parts.length > 0);
  return {
    of: new Map(kept.flatMap((z, i) => z.parts.map((m): [string, number] => [m, i]))),
    names: kept.map((z) => z.name),
  };
}

/**
 * An earlier zoning with what came since: each new part in the zone with most of its wires.
 *
 * @param shared boxes and joints that several zones show: they have none of their own
 */
export function joinedBy({ of, names }: Zoning, shared: ReadonlySet<string>, loom: ResolvedLoom): Zoning {
  const now = new Map(loom.parts.flatMap((p) => (of.has(p.id) ? [[p.id, of.get(p.id) ?? 0] as const] : [])));
  for (const { id, family } of loom.parts) {
    if (now.has(id) || shared.has(id) || family === "ground-point") continue;
    const mine = loom.wires.filter((w) => isAt(w, id));
    // Wired only to what serves several zones: where most of that is.
    const beyond = mine.flatMap((w) =>
      loom.wires.filter((v) => isAt(v, farOf(w, id)) && shared.has(farOf(w, id))).map((v) => farOf(v, farOf(w, id))),
    );
    const votes = names.map(
      (_, z) =>
        1000 * mine.filter((w) => now.get(farOf(w, id)) === z).length + beyond.filter((b) => now.get(b) === z).length,
    );
    now.set(id, Math.max(0, votes.indexOf(Math.max(...votes))));
  }
  return { of: now, names };
}

const isAt = ({ from, to }: Wire, part: string): boolean => from.part === part || to.part === part;
const farOf = ({ from, to }: Wire, part: string): string => (from.part === part ? to.part : from.part);
