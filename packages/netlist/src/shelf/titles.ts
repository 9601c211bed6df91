import type { FamilyId } from "../parts/families.ts";

type Row = readonly [family: FamilyId, kindOrDefinition: string, title: string, says: string];

/** Names of the trade for every kind of every family [common practice, no source]. A test holds it complete. */
export const SHELF: readonly (readonly [group: string, rows: readonly Row[]])[] = [
  [
    "Sources",
    [
      ["battery", "battery", "Battery", "open-circuit volts behind its own resistance"],
      ["alternator", "charge-lamp", "Alternator", "charges while the engine turns it"],
      ["engine", "engine", "Engine", "what cranks it and what keeps it running"],
    ],
  ],
  [
    "Protection",
    [
      ["protector", "blade", "Fuse", "blade fuse"],
      ["protector", "bolt-down", "Main fuse", "bolted down, for large currents"],
      ["protector", "link", "Fusible link", "a short thin wire that melts"],
    ],
  ],
  [
    "Relays",
    [
      ["relay", "make", "Relay", "joins 30 and 87 while its coil has current"],
      ["relay", "changeover", "Changeover relay", "30 goes from 87a to 87"],
      ["relay", "break", "Break relay", "parts 30 and 87a while its coil has current"],
      ["relay", "latching", "Latching relay", "stays where it was put"],
    ],
  ],
  [
    "Switches",
    [
      ["key-switch", "key", "Key", "off, accessories, run, start"],
      ["switch", "toggle", "Switch", "stays where it is put"],
      ["switch", "push", "Push button", "joins while it is pressed"],
      ["switch", "push-break", "Push button, opens", "parts while it is pressed"],
      ["switch", "two-way", "Two-way switch", "joins 3 to 1 or to 2"],
      ["switch", "isolator", "Isolator", "cuts the battery off"],
      ["switch", "seat", "Seat switch", "someone sits on it"],
      ["switch", "gear", "Gear switch", "in neutral, or a pedal is down"],
    ],
  ],
  [
    "Loads",
    [
      ["motor", "motor", "Motor", "moves something"],
      ["motor", "pump", "Pump", "fuel, water or oil"],
      ["motor", "fan", "Fan", "moves air"],
      ["motor", "starter", "Starter motor", "without its own solenoid"],
      ["starter", "solenoid", "Starter", "with its own solenoid"],
      ["lamp", "filament", "Lamp", "a filament lamp"],
      ["lamp", "indicator", "Indicator lamp", "a small one on the dash"],
      ["led", "unit", "LED light", "nothing below its knee"],
      ["led", "indicator", "LED indicator", "glows on very little"],
      ["heater", "heater", "Heater", "a resistance made to get hot"],
      ["heater", "glow-plug", "Glow plug", "heats a cylinder before the start"],
      ["injector", "injector", "Injector", "opens while its return is at ground"],
      ["ignition-coil", "plain", "Ignition coil", "switched in its return"],
      ["ignition-coil", "own-driver", "Ignition coil, driven", "with its own driver; a signal commands it"],
    ],
  ],
  [
    "Sensors",
    [
      ["switch", "pressure", "Pressure switch", "moved by oil, water or air"],
      ["switch", "temperature", "Temperature switch", "moved by heat"],
    ],
  ],
  [
    "Modules",
    [
      ["module", "@injection-controller", "Controller", "13 pins to change to yours; invented"],
      ["module", "@power-module", "Power module", "four solid-state channels; invented"],
    ],
  ],
  [
    "Components",
    [
      ["resistor", "resistor", "Resistor", "in series, or to feed or ground"],
      ["diode", "diode", "Diode", "lets current pass one way"],
      ["diode", "zener", "Zener diode", "also passes backwards above its volts"],
      ["capacitor", "electrolytic", "Capacitor", "a large one with a plus side"],
      ["capacitor", "film", "Film capacitor", "a small one against noise"],
    ],
  ],
  [
    "Joints",
    [
      ["splice", "splice", "Splice", "crimp or solder in the loom"],
      ["splice", "stud", "Stud", "a bus bar or junction stud"],
      ["ground-point", "body", "Ground on the body", "a stud on sheet metal or frame"],
      ["ground-point", "engine", "Ground on the engine", "a stud on the block or gearbox"],
      ["ground-point", "stud", "Ground stud", "a stud on other metal"],
      ["connector", "inline", "Connector", "two halves in the loom"],
      ["connector", "bulkhead", "Bulkhead connector", "through a wall"],
    ],
  ],
];
