import { seeded } from "../../seeded.ts";

// Relay ladders: every coil is fed through contacts of its own, in series and side by side. All invented.

/** One pair of contacts. Which way it is closed by itself is its owner's affair for a button, its own for a relay. */
type Contact =
  | { readonly kind: "button"; readonly of: string }
  | { readonly kind: "make" | "break"; readonly of: string };

/** Contacts between the feed and a coil. */
export type Rung =
  | Contact
  | { readonly kind: "series"; readonly parts: readonly Rung[] }
  | { readonly kind: "parallel"; readonly parts: readonly Rung[] };

export interface Ladder {
  /** Push buttons: normally open, or normally closed. */
  readonly buttons: readonly { readonly id: string; readonly isBreak: boolean }[];
  readonly relays: readonly { readonly id: string; readonly rung: Rung }[];
}

const series = (...parts: readonly Rung[]): Rung => ({ kind: "series", parts });
const parallel = (...parts: readonly Rung[]): Rung => ({ kind: "parallel", parts });
const button = (of: string): Rung => ({ kind: "button", of });

/** What a ladder is put together from. */
export const SHAPES = ["seal-in", "interlock", "ring", "turning ring", "anything"] as const;
export type Shape = (typeof SHAPES)[number];

/** Relays of one ladder; its states are then a few hundred at most, buttons and all. */
const MOST_RELAYS = 5;
const MOST_BUTTONS = 3;
/** A relay of the file has twelve sets of contacts at most; the shapes themselves use a few. */
const MOST_CONTACTS = 9;

/** The ladder of a seed. Its first shape is the one asked for; others may stand beside it and be tied to it. */
export function ladderOf(seed: number, shape: Shape): Ladder {
  const rnd = seeded(seed);
  const upTo = (n: number) => Math.floor(rnd() * n);
  const pick = <T>(list: readonly T[]): T => list[upTo(list.length)] as T;
  const buttons: { id: string; isBreak: boolean }[] = [];
  const relays: { id: string; rung: Rung }[] = [];
  const used = new Map<string, number>();
  const contact = (kind: "make" | "break", of: string): Rung => {
    used.set(of, (used.get(of) ?? 0) + 1);
    return { kind, of };
  };
  const make = (of: string) => contact("make", of);
  const broken = (of: string) => contact("break", of);
  /** A button of this nature: a new one, or one that is there already. */
  const press = (isBreak: boolean): Rung => {
    const same = buttons.filter((b) => b.isBreak === isBreak);
    if (same.length > 0 && (buttons.length >= MOST_BUTTONS || rnd() < 0.4)) return button(pick(same).id);
    if (buttons.length >= MOST_BUTTONS) return button(pick(buttons).id);
    const id = `S${buttons.length + 1}`;
    buttons.push({ id, isBreak });
    return button(id);
  };
  const start = () => press(false);
  const stop = () => press(true);
  const add = (count: number, rung: (ids: readonly string[], i: number) => Rung) => {
    const ids = Array.from({ length: count }, (_, i) => `K${relays.length + i + 1}`);
    for (const [i, id] of ids.entries()) relays.push({ id, rung: rung(ids, i) });
  };
  const anyContact = (): Rung => {
    const known = relays.map((r) => r.id).filter((id) => (used.get(id) ?? 0) < MOST_CONTACTS);
    if (known.length === 0 || rnd() < 0.3) return press(rnd() < 0.4);
    return rnd() < 0.5 ? make(pick(known)) : broken(pick(known));
  };
  const anything = (depth: number): Rung => {
    if (depth === 0 || rnd() < 0.25) return anyContact();
    const parts = Array.from({ length: 2 + upTo(2) }, () => anything(depth - 1));
    return rnd() < 0.5 ? series(...parts) : parallel(...parts);
  };
  const put = (of: Shape, room: number) => {
    switch (of) {
      case "seal-in":
        return add(1, ([own = ""]) => series(stop(), parallel(start(), make(own))));
      case "interlock": {
        // Two that shut each other out; sealed in, or only as long as a finger is on the button.
        const isSealed = rnd() < 0.7;
        return add(2, (ids, i) => {
          const asked = isSealed ? parallel(start(), make(ids[i] ?? "")) : start();
          return series(asked, broken(ids[1 - i] ?? ""));
        });
      }
      case "ring": {
        const count = Math.min(room, 2 + upTo(4));
        const ended = upTo(count);
        return add(count, (ids, i) => {
          const before = make(ids[(i + count - 1) % count] ?? "");
          const entered = i === 0 || rnd() < 0.3 ? parallel(start(), before) : before;
          return i === ended && rnd() < 0.8 ? series(stop(), entered) : entered;
        });
      }
      case "turning ring": {
        // Some go in when the one before goes out: with an odd number of those it never comes to rest.
        const count = Math.min(room, 2 + upTo(3));
        return add(count, (ids, i) => {
          const before = ids[(i + count - 1) % count] ?? "";
          const turned = contact(rnd() < 0.5 ? "make" : "break", before);
          return i === 0 ? series(press(rnd() < 0.3), turned) : turned;
        });
      }
      case "anything":
        return add(Math.min(room, 1 + upTo(3)), () => anything(2));
      default:
        return of satisfies never;
    }
  };
  put(shape, MOST_RELAYS);
  for (let room = MOST_RELAYS - relays.length; room >= 2 && rnd() < 0.6; room = MOST_RELAYS - relays.length)
    put(pick(SHAPES), room);
  // Ties between what stands side by side.
  for (const relay of relays) {
    if (rnd() < 0.2) relay.rung = series(relay.rung, anyContact());
    else if (rnd() < 0.15) relay.rung = parallel(relay.rung, series(anyContact(), anyContact()));
  }
  if (buttons.length === 0) relays.push({ id: `K${relays.length + 1}`, rung: start() });
  return { buttons, relays };
}
