import type { ModuleDefinitionText } from "../parts/module-definition.ts";
import type { TextForm } from "../parts/text-form.ts";
import { asTyped } from "../units/typed.ts";

type PinText = ModuleDefinitionText["pins"][number];

// Small values of a pin as a line.

const quantity = (text: string, unit: "volts" | "ohms"): string => {
  const typed = asTyped(text, unit);
  return typed.kind === "bare" ? typed.offers[0] : typed.text;
};

/** "unknown", "none", "diode to inside", "zener 42 V". */
export const clampText: TextForm = {
  write: (raw) => {
    const clamp = raw as NonNullable<PinText["clamp"]>;
    if (typeof clamp === "string") return clamp;
    return clamp.kind === "diode" ? `diode to ${clamp.to}` : `zener ${clamp.volts}`;
  },
  read: (line) => {
    const diode = /^diode\s+to\s+(.+)$/.exec(line)?.[1];
    const zener = /^zener\s+(.+)$/.exec(line)?.[1];
    if (diode !== undefined) return { ok: true, value: { kind: "diode", to: diode } };
    if (zener !== undefined) return { ok: true, value: { kind: "zener", volts: quantity(zener, "volts") } };
    if (line === "none" || line === "unknown") return { ok: true, value: line };
    return { ok: false, expected: "none, unknown, diode to a rail or pin, or zener 42 V" };
  },
};

/** "down 10 kohm", "up 2.2 kohm to 7". */
export const pullText: TextForm = {
  write: (raw) => {
    const bias = raw as NonNullable<PinText["bias"]>;
    if ("down" in bias) return `down ${bias.down}`;
    return bias.to === undefined ? `up ${bias.up}` : `up ${bias.up} to ${bias.to}`;
  },
  read: (line) => {
    const [, way, ohms = "", to] = /^(up|down)\s+(.+?)(?:\s+to\s+(.+))?$/.exec(line) ?? [];
    if (way === undefined || (way === "down" && to !== undefined))
      return { ok: false, expected: "down 10 kohm, or up 2.2 kohm to a pin or rail" };
    const value = quantity(ohms, "ohms");
    return { ok: true, value: way === "down" ? { down: value } : { up: value, ...(to === undefined ? {} : { to }) } };
  },
};
