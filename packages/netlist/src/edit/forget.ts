import type { Loom } from "../loom/schema.ts";

/** Whether a name is that of what is gone: "K3", or a terminal of it "K3.86". */
export type IsIt = (name: string) => boolean;

/** A loom without what named something that is gone, and in words what that was: "the wish pump". */
export interface Forgot {
  readonly loom: Loom;
  readonly also: readonly string[];
}

/** Takes away what the world, the owner and people say of something that is gone, and what they say of these wires. */
export function forget(loom: Loom, isIt: IsIt, wires: readonly string[]): Forgot {
  const world = withoutWorld(loom, isIt);
  const wishes = withoutWishes(world.loom, isIt);
  const talk = withoutTalk(wishes.loom, (name) => isIt(name) || wires.includes(name));
  return { loom: talk.loom, also: [...world.also, ...wishes.also, ...talk.also] };
}

function withoutWorld(loom: Loom, isIt: IsIt): Forgot {
  const also: string[] = [];
  const world = loom.world.flatMap((item): Loom["world"] => {
    if ("never" in item) {
      if (!Object.keys(item.never).some(isIt)) return [item];
      also.push(`what can never be together (${item.id})`);
      return [];
    }
    if (!item.moves?.some(isIt)) return [item];
    also.push(`that ${item.id} moves it`);
    return [{ ...item, moves: item.moves.filter((m) => !isIt(m)) }];
  });
  return { loom: { ...loom, world }, also };
}

type Situation = Readonly<Record<string, unknown>>;

/** Wishes that name it, and seals of it. A wish that only lists it among others stays. */
function withoutWishes(loom: Loom, isIt: IsIt): Forgot {
  const also: string[] = [];
  const asks = (...lists: readonly (readonly Situation[] | undefined)[]) =>
    lists.some((list) => list?.some((s) => Object.keys(s).some(isIt)));
  const intents = loom.intents.flatMap((wish): Loom["intents"] => {
    const others = wish.neverWith?.filter((n) => !isIt(n));
    const isAbout = [wish.load, wish.battery].some((n) => n !== undefined && isIt(n));
    const { neverWith: _, ...rest } = wish;
    const saysMore = [wish.onOnlyWhen, wish.onWhen, wish.offWithin, wish.below].some((v) => v !== undefined);
    const isEmptied = others?.length === 0 && wish.neverWith?.length !== 0;
    if (
      isAbout ||
      (isEmptied && !saysMore) ||
      asks(wish.onOnlyWhen, wish.onWhen, wish.when, wish.after && [wish.after])
    ) {
      also.push(`the wish ${wish.id}`);
      return [];
    }
    if (others?.length === wish.neverWith?.length) return [wish];
    also.push(`its place in the wish ${wish.id}`);
    return [isEmptied ? rest : { ...wish, neverWith: others }];
  });
  const meant = loom.meant.filter((m) => {
    const isGone = isIt(m["seal-in"]) || asks(m.set, m.clear);
    if (isGone) also.push(`that ${m.id} is meant`);
    return !isGone;
  });
  return { loom: { ...loom, intents, meant }, also };
}

/** Accepted findings and remarks about what is gone. */
function withoutTalk(loom: Loom, isGone: IsIt): Forgot {
  const subjects = (finding: string) => finding.slice(finding.indexOf(":") + 1).split("+");
  const lost = loom.accepted.filter((a) => subjects(a.finding).some(isGone));
  const mute = loom.remarks.filter((r) => Object.values(r.on).some(isGone));
  return {
    loom: {
      ...loom,
      accepted: loom.accepted.filter((a) => !lost.includes(a)),
      remarks: loom.remarks.filter((r) => !mute.includes(r)),
    },
    also: [
      ...lost.map((a) => `that ${a.finding} was accepted`),
      ...mute.map((r) => `the remark ${r.id}${r.state === "done" ? "" : ` ("${r.text.slice(0, 40)}")`}`),
    ],
  };
}
