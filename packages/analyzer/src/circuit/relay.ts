import { type Contact, contactsOf, type PartWith, type Suppression } from "@loomproof/netlist";
import { putArmature, putContact } from "./armature.ts";
import type { Quench } from "./circuit.ts";
import { siliconDiode, withZener } from "./curve.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import type { SheetTimes, Sides } from "./travel.ts";

export function relay(part: PartWith<"relay">, door: Door, { systemVolts }: Context): void {
  const { values, assumed } = part;
  const { seriesDiode } = values;
  const windings = values.windings.map((w, i) => {
    const [first, second] = w.between;
    const ohms = w.ohms ?? values.coil;
    if (i > 0 || seriesDiode === undefined)
      return { from: door.terminal(first), to: door.terminal(second), ohms, turns: w.turns };
    // The diode sits at the end where current enters; behind it an inside node.
    const behind = door.inside("behind diode");
    door.diode({ from: door.terminal(seriesDiode.anode), to: behind, says: "diode in the coil", curve: siliconDiode });
    const out = seriesDiode.anode === first ? second : first;
    return { from: behind, to: door.terminal(out), ohms, turns: w.turns };
  });
  const contacts = contactsOf(values.contacts, part.kind);
  const latch = putArmature(door, windings, {
    operateVolts: values.operate,
    releaseVolts: values.release,
    ...timesOf(values, contacts),
    sides: sidesOf(
      contacts.filter((c) => door.isWired(c.common)),
      door,
    ),
    latching: part.kind === "latching" ? { deliveredIn: values.delivered === "in" } : undefined,
    ratedVolts: systemVolts,
    quench: quenchOf(values.suppression),
    isGiven: { operateTime: !assumed.includes("operateTime"), releaseTime: !assumed.includes("releaseTime") },
  });
  putSuppression(door, values.suppression, values.windings[0]?.between);
  for (const contact of contacts) {
    const from = door.terminal(contact.common);
    const ohms = values.contactOhms;
    if (contact.make !== undefined)
      putContact(door, { from, to: door.terminal(contact.make), ohms, latch, make: true });
    if (contact.break !== undefined)
      putContact(door, { from, to: door.terminal(contact.break), ohms, latch, make: false });
  }
}

const NO_TIME = { least: 0, most: 0 };

/** What has contacts on one side only has none in the air that anything waits for. */
function timesOf({ operateTime, releaseTime, transit }: SheetTimes, contacts: readonly Contact[]): SheetTimes {
  const hasBoth = contacts.some((c) => c.make !== undefined) && contacts.some((c) => c.break !== undefined);
  return { operateTime, releaseTime, transit: hasBoth ? transit : NO_TIME };
}

/** Only what is wired counts: each side that does costs time. */
function sidesOf(contacts: readonly Contact[], door: Door): Sides {
  const isWired = (side: "make" | "break") => contacts.some(({ [side]: t }) => t !== undefined && door.isWired(t));
  return isWired("break") ? (isWired("make") ? "both" : "rest") : "make";
}

function putSuppression(door: Door, suppression: Suppression, between: readonly [string, string] | undefined): void {
  if (between === undefined) return;
  switch (suppression.kind) {
    case "none":
      return;
    case "resistor":
      door.stray({
        from: door.terminal(between[0]),
        to: door.terminal(between[1]),
        says: "suppression resistor",
        ohms: suppression.ohms,
      });
      return;
    case "diode":
    case "zener": {
      const { anode, cathode } = suppression;
      const from = door.terminal(anode);
      const to = door.terminal(cathode);
      if (suppression.kind === "diode") {
        door.diode({ from, to, says: "suppression diode", curve: siliconDiode });
        return;
      }
      // The zener faces the diode: it only conducts forwards once the diode's way is open above its volts.
      const middle = door.inside("between suppression parts");
      door.diode({ from, to: middle, says: "suppression diode", curve: siliconDiode });
      door.stray({
        from: to,
        to: middle,
        says: "suppression zener",
        curve: withZener(siliconDiode, suppression.volts, 1),
      });
      return;
    }
    default:
      suppression satisfies never;
  }
}

/** Which way round it is fitted does not matter here: the other way round the relay would not work at all. */
function quenchOf(suppression: Suppression): Quench {
  if (suppression.kind === "resistor") return { kind: "resistor", ohms: suppression.ohms };
  if (suppression.kind === "zener") return { kind: "zener", volts: suppression.volts };
  return { kind: suppression.kind };
}
