import type { ScriptMove } from "./hand.ts";
import type { Run, RunOptions } from "./happening.ts";
import { Player } from "./player.ts";
import type { Rig } from "./rig.ts";

/**
 * Plays a script. Before it the battery is connected, with all inputs as usual, and all comes to rest; that is not part
 * of the samples, unless it never does.
 */
export function run(rig: Rig, script: readonly ScriptMove[], options: RunOptions): Run {
  const player = new Player(rig, options);
  player.untilRest();
  if (player.end === "at rest") player.begin();
  for (const { at, input, stand } of script) {
    if (at === "rest") player.untilRest();
    else if (typeof at === "object") player.wait(at.later);
    else if (at !== "at once") player.until(at);
    if (player.end === "at rest") player.move(input, stand);
  }
  player.untilRest();
  return player.result();
}
