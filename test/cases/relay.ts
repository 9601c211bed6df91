import type { Loom } from "@loomproof/netlist";
import type { CaseContact, RelayPart } from "./case-types.ts";
import { amps, milliseconds, ohms, volts } from "./quantities.ts";

// Relays of a case: every threshold and time is one value, so that the case's own numbers can be met.

type LoomPart = Loom["parts"][number];

export function convertRelay(part: RelayPart, why: string[]): LoomPart {
  const [first, second] = part.coil;
  const kind = kindOf(part.contacts);
  const series = part.coil_series_diode?.anode_side;
  const note = noteOf(part);
  return {
    id: part.id,
    is: "relay",
    kind,
    coil: ohms(part.coil_ohms),
    ...(first === "86" && second === "85" ? {} : { windings: [{ between: [first, second] }] }),
    ...(isUsual(part.contacts, kind) ? {} : { contacts: part.contacts.map(contactOf) }),
    operate: volts(part.pick_up_volts),
    release: volts(part.drop_out_volts),
    operateTime: milliseconds(part.operate_ms),
    releaseTime: milliseconds(part.release_ms),
    ...(part.contacts.some((c) => c.closed_contact !== undefined) ? { transit: milliseconds(0) } : {}),
    contactOhms: ohms(part.contact_ohms),
    suppression: suppressionOf(part, why),
    ...(series === undefined ? {} : { seriesDiode: `${series}>${series === first ? second : first}` }),
    rated: amps(part.contact_amps),
    ...(note === undefined ? {} : { note }),
  };
}

function kindOf(contacts: readonly CaseContact[]): "make" | "break" | "changeover" {
  const makes = contacts.some((c) => c.open_contact !== undefined);
  const breaks = contacts.some((c) => c.closed_contact !== undefined);
  return breaks ? (makes ? "changeover" : "break") : "make";
}

/** One contact set with the terminals that its kind has anyway. */
function isUsual(contacts: readonly CaseContact[], kind: "make" | "break" | "changeover"): boolean {
  const [only, ...more] = contacts;
  if (only === undefined || more.length > 0 || only.common !== "30") return false;
  return (
    only.open_contact === (kind === "break" ? undefined : "87") &&
    only.closed_contact === (kind === "make" ? undefined : "87a")
  );
}

const contactOf = (c: CaseContact) => ({
  common: c.common,
  ...(c.open_contact === undefined ? {} : { make: c.open_contact }),
  ...(c.closed_contact === undefined ? {} : { break: c.closed_contact }),
});

/** A suppression diode without terminals has its cathode on 86 and never conducts in the states given. */
function suppressionOf(part: RelayPart, why: string[]): "none" | { diode: string } | { resistor: string } {
  if (part.coil_parallel_diode)
    return { diode: `${part.coil_parallel_diode.anode}>${part.coil_parallel_diode.cathode}` };
  if (part.suppression === "none") return "none";
  if (part.suppression === "diode") return { diode: "85>86" };
  const resistor = /^resistor (\d+) ohm$/.exec(part.suppression)?.[1];
  if (resistor === undefined) why.push(`suppression "${part.suppression}" of ${part.id}`);
  return resistor === undefined ? "none" : { resistor: ohms(Number(resistor)) };
}

function noteOf(part: RelayPart): string | undefined {
  const notes = [
    ...(part.contacts.some((c) => c.closed_contact !== undefined)
      ? [`Rest contact rated ${part.closed_contact_amps} A.`]
      : []),
    ...(part.max_coil_volts === undefined ? [] : [`Coil stands ${part.max_coil_volts} V.`]),
    ...(part.intended === undefined ? [] : [`Meant by the owner: ${part.intended}.`]),
  ];
  return notes.length === 0 ? undefined : notes.join(" ");
}
