import { type ModuleDefinitionText, moduleDefinitionSchema } from "../parts/module-definition.ts";
import { anyAsks, withConditions, withoutAsking } from "./conditions.ts";
import { inOrder, keyed } from "./keyed.ts";

// What names a pin inside its own definition: rails, other pins, inside elements, logic.

type PinText = ModuleDefinitionText["pins"][number];

/** A pin with its keys in the order of the file. */
export const pinInOrder = (pin: Readonly<Record<string, unknown>>): PinText =>
  inOrder(pin, moduleDefinitionSchema.shape.pins.element) as PinText;

/**
 * A definition without a pin and without what names it. A clamp to it becomes "unknown", a rail fed by nothing else goes,
 * logic that needs it can never be true again. The last pin stays.
 */
export function withoutPin(definition: ModuleDefinitionText, pin: string): ModuleDefinitionText {
  const gone = definition.pins.find((p) => p.pin === pin);
  const pins = definition.pins.filter((p) => p !== gone);
  if (gone === undefined || pins.length === 0) return definition;
  const rails = definition.rails?.flatMap((r) => {
    if (typeof r.fedBy === "string") return r.fedBy === pin ? [] : [r];
    const fedBy = r.fedBy.filter((p) => p !== pin);
    return fedBy.length === 0 ? [] : [{ ...r, fedBy }];
  });
  const railsGone = (definition.rails ?? []).map((r) => r.id).filter((id) => !rails?.some((r) => r.id === id));
  const names = new Set([pin, ...railsGone]);
  const { inside, logic } = definition;
  const on = logic?.on && Object.fromEntries(Object.entries(logic.on).filter(([k]) => k !== pin));
  const without: ModuleDefinitionText = {
    ...definition,
    ...(rails && { rails }),
    pins: pins.map((p) => forgetting(p, names, gone.name)),
    ...(inside && { inside: inside.filter((e) => !e.between.includes(pin)) }),
    ...(logic && { logic: { ...logic, ...(on && { on }) } }),
  };
  const asks: Parameters<typeof anyAsks>[1] = (atoms) =>
    Object.hasOwn(atoms.pin ?? {}, pin) || (atoms.volts?.between.includes(pin) ?? false);
  return anyAsks(without, asks) ? withConditions(without, (c) => withoutAsking(c, asks)) : without;
}

/** A pin that no longer names what is gone. A pull-up may go by the name that the gone pin had. */
function forgetting(p: PinText, gone: ReadonlySet<string>, name: string | undefined): PinText {
  const { feed, bias, wakeFeeds, clamp, ...rest } = p;
  const isPullGone =
    bias !== undefined && "up" in bias && bias.to !== undefined && (gone.has(bias.to) || bias.to === name);
  return pinInOrder({
    ...rest,
    ...(wakeFeeds && { wakeFeeds: wakeFeeds.filter((fed) => !gone.has(fed)) }),
    ...(bias && !isPullGone && { bias }),
    ...(clamp && {
      clamp: typeof clamp === "object" && clamp.kind === "diode" && gone.has(clamp.to) ? "unknown" : clamp,
    }),
    ...(feed !== undefined && !gone.has(feed) && { feed }),
  });
}

/** A definition with a pin under another number. */
export function withPinRenamed(definition: ModuleDefinitionText, from: string, to: string): ModuleDefinitionText {
  const id = (name: string) => (name === from ? to : name);
  const keys = <T>(record: Readonly<Record<string, T>>) => keyed(record, id);
  const between = ([a, b]: readonly [string, string]): [string, string] => [id(a), id(b)];
  const { rails, inside, logic } = definition;
  const outer: ModuleDefinitionText = {
    ...definition,
    ...(rails && {
      rails: rails.map((r) => ({ ...r, fedBy: typeof r.fedBy === "string" ? id(r.fedBy) : r.fedBy.map(id) })),
    }),
    pins: definition.pins.map((p) => ({
      ...p,
      pin: id(p.pin),
      ...(p.wakeFeeds && { wakeFeeds: p.wakeFeeds.map(id) }),
      ...(p.bias && "up" in p.bias && p.bias.to !== undefined && { bias: { ...p.bias, to: id(p.bias.to) } }),
      ...(typeof p.clamp === "object" && p.clamp.kind === "diode" && { clamp: { ...p.clamp, to: id(p.clamp.to) } }),
      ...(p.feed !== undefined && { feed: id(p.feed) }),
    })),
    ...(inside && { inside: inside.map((e) => ({ ...e, between: between(e.between) })) }),
    ...(logic?.on && { logic: { ...logic, on: keys(logic.on) } }),
  };
  const renamed = <
    T extends {
      pin?: Record<string, "active" | "idle"> | undefined;
      volts?: { between: [string, string] } | undefined;
    },
  >(
    atoms: T,
  ): T => ({
    ...atoms,
    ...(atoms.pin && { pin: keys(atoms.pin) }),
    ...(atoms.volts && { volts: { ...atoms.volts, between: between(atoms.volts.between) } }),
  });
  return withConditions(outer, (condition) =>
    condition.map(({ not, ...atoms }) => ({
      ...renamed(atoms),
      ...(not && { not: Array.isArray(not) ? not.map(renamed) : renamed(not) }),
    })),
  );
}
