import { backFeed } from "./back-feed.ts";
import { chatter } from "./chatter.ts";
import { conflict } from "./conflict.ts";
import { crankDrop } from "./crank-drop.ts";
import { guardBypassed } from "./guard-bypassed.ts";
import { intent } from "./intent.ts";
import { joinedFeeds } from "./joined-feeds.ts";
import { openEnd } from "./open-end.ts";
import { race } from "./race.ts";
import { releaseOverlap } from "./release-overlap.ts";
import type { Rule } from "./rule.ts";
import { runsOn } from "./runs-on.ts";
import { selfHold } from "./self-hold.ts";
import { short } from "./short.ts";
import { sneakPath } from "./sneak-path.ts";
import { unfused } from "./unfused.ts";
import { unreachable } from "./unreachable.ts";
import { wrongSide } from "./wrong-side.ts";

/** The one list of rules, gravest cause first: a finding folds under an earlier one that explains it. */
export const rules: readonly Rule[] = [
  short,
  conflict,
  selfHold,
  backFeed,
  sneakPath,
  guardBypassed,
  runsOn,
  releaseOverlap,
  race,
  chatter,
  crankDrop,
  wrongSide,
  unfused,
  openEnd,
  unreachable,
  joinedFeeds,
  intent,
];
