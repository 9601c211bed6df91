import { chartEnd, type Finding, type Timeline } from "@loomproof/analyzer";

/** A stretch of time in which two things are so that must not be, or only just are not. */
export interface Overlap {
  /** ms */
  readonly from: number;
  readonly to: number;
  /** Up to here whatever the times; undefined if that is not known. */
  readonly surely: number | undefined;
  readonly head: string;
  readonly says: string;
  /** What the hatched stretch is, in few words. */
  readonly hatched: string;
}

const msText = (ms: number): string => `${Number(ms.toFixed(1))}\u00a0ms`;

/** What the picked finding gives of it, put where it is in the timeline; else the last relay that was called back. */
export function overlapOf(timeline: Timeline, finding: Finding | undefined): Overlap | undefined {
  return (
    caughtIn(timeline, finding) ?? togetherIn(timeline, finding) ?? spareIn(timeline, finding) ?? recalledIn(timeline)
  );
}

/** A caught hold: from what moved in time until the relay would have let go. */
function caughtIn({ events }: Timeline, finding: Finding | undefined): Overlap | undefined {
  const margin = finding?.hold?.margin;
  if (margin === undefined) return undefined;
  const closes = events.findLast((e) => e.id === margin.by && LANDS.has(e.kind));
  if (closes === undefined) return undefined;
  const { least, most } = margin;
  return {
    from: closes.ms,
    to: closes.ms + most,
    surely: closes.ms + least,
    head: `Margin ${least === most ? msText(most) : `${Number(least.toFixed(1))} to ${msText(most)}`}`,
    says: `${margin.says}.`,
    hatched: `until ${margin.relay} would let go`,
  };
}

const LANDS: ReadonlySet<string> = new Set(["latch", "rest contact", "stand"]);

/** Relays that are in together while they change over: the last time that they are, as played. */
function togetherIn(timeline: Timeline, finding: Finding | undefined): Overlap | undefined {
  if (finding?.rule !== "release-overlap" || finding.numbers.some((n) => n.name === SPARE)) return undefined;
  const { ms, relays } = timeline.traces;
  const own = relays.filter((r) => finding.where.includes(r.id));
  if (own.length < 2) return undefined;
  const areTogether = (k: number) => own.every((r) => r.in[k] === 1);
  const last = ms.findLastIndex((_, k) => areTogether(k));
  // Together to the end is no change-over.
  if (last < 0 || last === ms.length - 1) return undefined;
  let first = last;
  while (first > 0 && areTogether(first - 1)) first--;
  const [from, to] = [ms[first] ?? 0, ms[last + 1] ?? 0];
  const head = `Together for ${msText(to - from)}`;
  return { from, to, surely: undefined, head, says: finding.text, hatched: "in together" };
}

const SPARE = "time to spare";

/** A hold that is only just missed: from the relay letting go until the other moves. */
function spareIn({ events }: Timeline, finding: Finding | undefined): Overlap | undefined {
  if (finding?.rule !== "release-overlap" || !finding.numbers.some((n) => n.name === SPARE)) return undefined;
  const [relay, other] = finding.where;
  const opens = events.findLast((e) => e.id === relay && e.kind === "latch" && e.to === "off");
  const next = opens && events.find((e) => e.id === other && LANDS.has(e.kind) && e.ms >= opens.ms);
  if (opens === undefined || next === undefined) return undefined;
  return {
    from: opens.ms,
    to: next.ms,
    surely: undefined,
    head: `To spare ${msText(next.ms - opens.ms)}`,
    says: finding.text,
    hatched: "time to spare",
  };
}

/** A relay that was letting go and was called back: until it would have been out. */
function recalledIn(timeline: Timeline): Overlap | undefined {
  const back = timeline.events.findLast((e) => e.kind === "recalled" && e.to === "off" && e.dueMs !== undefined);
  if (back?.dueMs === undefined || timeline.end !== "at rest" || back.ms > chartEnd(timeline)) return undefined;
  const says = `${back.id} was letting go and is called back; that much later it would have been out.`;
  const head = `Margin ${msText(back.dueMs - back.ms)}`;
  return { from: back.ms, to: back.dueMs, surely: undefined, head, says, hatched: `until ${back.id} would be out` };
}
