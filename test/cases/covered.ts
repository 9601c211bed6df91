// Which circuits the rules of today must judge, and what each of the others waits for.

/** Rules that are built. */
export const RULES_OF_TODAY = [
  "self-hold",
  "back-feed",
  "sneak-path",
  "chatter",
  "short",
  "open-end",
  "unreachable",
  "unfused",
  "wrong-side",
  "conflict",
  "guard-bypassed",
  "joined-feeds",
  "runs-on",
  "release-overlap",
  "race",
  "crank-drop",
] as const;
type RuleOfToday = (typeof RULES_OF_TODAY)[number];

interface CoveredFault {
  readonly id: string;
  /** The rule that must speak, by its definition. */
  readonly rule: RuleOfToday;
  readonly why: string;
}

/** Faulted circuits in which a rule of today must speak at the place of the fault. */
export const coveredFaults: readonly CoveredFault[] = [
  { id: "C01F", rule: "self-hold", why: "PR feeds the controller that holds PR" },
  { id: "C02F", rule: "self-hold", why: "caught: K3 falls to 87a 10 ms before PR would open" },
  { id: "C04F", rule: "release-overlap", why: "the short exists for 23 ms, only while the relays change over" },
  { id: "C05F", rule: "chatter", why: "the coil opens its own feed" },
  { id: "C06F", rule: "self-hold", why: "leak: 6.8 V through the lamp hold IR, too little to pull it in" },
  { id: "C08F", rule: "self-hold", why: "leak: IR held through the charge lamp by a spinning alternator" },
  { id: "C10F", rule: "guard-bypassed", why: "the alternator feeds the ignition behind the isolator" },
  { id: "C11F", rule: "guard-bypassed", why: "the module is fed ahead of the isolator" },
  { id: "C12F", rule: "back-feed", why: "body diode of the output wakes the module from a turning fan" },
  { id: "C14F", rule: "self-hold", why: "leak: PR held through the clamp diode of a dead controller" },
  { id: "C16F", rule: "back-feed", why: "body diode carries the override to the module and every other output" },
  { id: "C17F", rule: "conflict", why: "a wire joins two outputs that have loads of their own" },
  { id: "C19F", rule: "back-feed", why: "clamp diode of the unpowered controller pulls RF in" },
  { id: "C20F", rule: "back-feed", why: "pull-down of the unpowered controller turns the solid-state relay on" },
  { id: "C22F", rule: "sneak-path", why: "the heater of the dead circuit is fed through the warning lamp" },
  { id: "C24F", rule: "chatter", why: "the clamp diode lets PR pull in, and shuts once it is in" },
  { id: "C25F", rule: "back-feed", why: "the hazard feed goes backwards through the turn lever" },
  { id: "C34F", rule: "wrong-side", why: "a low-side output on a solenoid whose other end is its body" },
  { id: "C36F", rule: "wrong-side", why: "battery on an input that wants ground" },
  { id: "C41F", rule: "conflict", why: "both batteries are joined with the engine stopped" },
  { id: "C44F", rule: "crank-drop", why: "the accessory contact opens while cranking" },
  { id: "C45F", rule: "crank-drop", why: "the gap between run and crank resets the controller" },
  { id: "C48F", rule: "short", why: "the reversed diode joins 86 to 85" },
  { id: "C50F", rule: "unreachable", why: "the diode in the coil blocks: K1 never comes in" },
  { id: "C56F", rule: "unfused", why: "branch off the battery with no fuse" },
  { id: "C57F", rule: "unfused", why: "the fuse is at the far end" },
  { id: "C58F", rule: "conflict", why: "two fuses feed one wire" },
  { id: "C64F", rule: "short", why: "ACC of the key is wired to the body" },
  { id: "C66F", rule: "unreachable", why: "the coil is never fed: PR never comes in" },
  { id: "C81F", rule: "guard-bypassed", why: "the second button is fed ahead of the clutch switch" },
  { id: "C83F", rule: "back-feed", why: "the flash feed goes backwards through the dip switch" },
  { id: "C87F", rule: "unfused", why: "charge lead without a fuse" },
  { id: "C92F", rule: "unreachable", why: "the change-over relay is never driven" },
  { id: "C95F", rule: "short", why: "the 5 V supply is wired to the sensor ground" },
  { id: "C98F", rule: "guard-bypassed", why: "kill switches in series: one alone stops nothing" },
  { id: "C102F", rule: "release-overlap", why: "right by 7 ms: with slower release it would be the hold of C02F" },
];

interface WaitingFault {
  readonly id: string;
  /** Rules that would find it. */
  readonly rules: readonly string[];
  readonly why: string;
}

/** Faulted circuits that no rule of today is meant to find. */
export const waitingFaults: readonly WaitingFault[] = [
  {
    id: "C28F",
    rules: ["sneak-path"],
    why: "told, but as a caution: the lamps are half lit, and the circuit calls it serious",
  },
  { id: "C29F", rules: ["sneak-path", "ground-offset"], why: "every load is asked for; the return is a thin wire" },
  { id: "C31F", rules: ["ground-offset"], why: "a sensor shares a return with a fan" },
  { id: "C32F", rules: ["ground-offset"], why: "a second return runs through the controller" },
  {
    id: "C40F",
    rules: ["key-off-drain"],
    why: "told as a conflict of two batteries; the key of the cases wants a latched relay, and there is no memory",
  },
  { id: "C42F", rules: ["wrong-voltage"], why: "12 V coil on 24 V" },
  { id: "C43F", rules: ["wrong-voltage"], why: "12 V load on half of a 24 V pair" },
  { id: "C51F", rules: ["no-suppression"], why: "nothing across the coil" },
  { id: "C52F", rules: ["no-suppression"], why: "the resistor lets 112 V through" },
  { id: "C53F", rules: ["contact-overload"], why: "27 A on a rest contact for 20 A" },
  { id: "C55F", rules: ["fuse-too-big"], why: "30 A fuse on 0.75 mm2" },
  { id: "C59F", rules: ["fuse-too-small"], why: "17 A on a 15 A fuse" },
  { id: "C60F", rules: ["volt-drop"], why: "2.3 V lost in wire and ground" },
  { id: "C61F", rules: ["volt-drop"], why: "thin starter cable" },
  { id: "C68F", rules: ["pin-mix-up"], why: "throttle tracks exchanged" },
  { id: "C70F", rules: ["effects of single faults"], why: "one open wire takes both channels" },
  { id: "C71F", rules: ["reversed", "pin-mix-up"], why: "sensor leads exchanged" },
  { id: "C73F", rules: ["level"], why: "12 V on a 5 V input" },
  { id: "C74F", rules: ["level", "conflict"], why: "gauge current lifts the sensor" },
  { id: "C75F", rules: ["termination"], why: "three terminators" },
  { id: "C77F", rules: ["pin-mix-up"], why: "bus wires exchanged" },
  { id: "C78F", rules: ["key-off-drain"], why: "coil fed all the time, and asked for" },
  { id: "C79F", rules: ["key-off-drain"], why: "leaking rectifier" },
  { id: "C90F", rules: ["effects of single faults"], why: "battery connected backwards" },
  { id: "C94F", rules: ["volt-drop"], why: "sense wire on a loaded wire" },
  { id: "C96F", rules: ["effects of single faults"], why: "welded contact" },
];
