import type { PartWith } from "@loomproof/netlist";
import { putArmature, putContact } from "./armature.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { judgeOf } from "./load.ts";

/**
 * The pull-in winding returns through the motor, so it stops helping once the main contact is closed. When the feed on
 * 50 goes while the contact is still closed, current runs backwards through it into the hold-in winding: their turns
 * cancel and the solenoid lets go. By volts it would seem held.
 */
export function starter(part: PartWith<"starter">, door: Door, { systemVolts }: Context): void {
  const { values, assumed } = part;
  const [battery, key, body] = [door.terminal("30"), door.terminal("50"), door.terminal("31")];
  const motor = door.inside("motor");
  const latch = putArmature(
    door,
    [
      { from: key, to: motor, ohms: values.pullIn, turns: 1 },
      { from: key, to: body, ohms: values.holdIn, turns: 1 },
    ],
    {
      operateVolts: values.operate,
      releaseVolts: values.release,
      operateTime: values.operateTime,
      releaseTime: values.releaseTime,
      drivePerVolt: { operate: 1 / values.pullIn + 1 / values.holdIn, hold: 1 / values.holdIn },
      ratedVolts: systemVolts,
      // Its own hold-in winding is the way for the current of the pull-in winding, and the other way round.
      quench: { kind: "none" },
      sides: "make",
      transit: { least: 0, most: 0 },
      isGiven: { operateTime: !assumed.includes("operateTime"), releaseTime: !assumed.includes("releaseTime") },
    },
  );
  putContact(door, { from: battery, to: motor, ohms: values.contactOhms, latch, make: true });
  door.load(
    { from: motor, to: body, says: "motor", ohms: systemVolts / values.rated },
    judgeOf({ onAbove: undefined, partlyAbove: undefined }, { on: 0.6, partly: 0.25 }, values.rated),
  );
}
