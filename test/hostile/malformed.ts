import { exampleText } from "../examples/examples.ts";

/** A file that must be refused: how it is made, and what the message must say. */
export interface Malformed {
  readonly name: string;
  readonly text: () => string;
  readonly expects: RegExp;
}

const base = exampleText("fuel-feed");

/** The demo loom with one piece of text changed. Throws if the piece is not there: the test would test nothing. */
function changed(from: string, to: string): () => string {
  if (!base.includes(from)) throw new Error(`the demo loom has no ${from}`);
  return () => base.replace(from, to);
}

const wrong = (name: string, from: string, to: string, expects: RegExp): Malformed => ({
  name,
  text: changed(from, to),
  expects,
});
const raw = (name: string, text: string, expects: RegExp): Malformed => ({ name, text: () => text, expects });
const whole = (parts: string, wires = ""): string =>
  `{"format": "loomproof/1", "system": {}, "parts": [${parts}], "wires": [${wires}]}`;

/** Cut at many places, also inside words and strings. */
const truncated: readonly Malformed[] = Array.from({ length: 30 }, (_, i) => {
  const at = Math.floor(((i + 1) * base.length) / 31);
  return { name: `cut after ${at} characters`, text: () => base.slice(0, at), expects: /expected/ };
});

const notJson: readonly Malformed[] = [
  raw("an empty file", "", /expected/),
  raw("white space only", " \n\t ", /expected/),
  raw("a bare word", "loom", /expected/),
  raw("a bare number", "42", /expected/),
  raw("null", "null", /expected/),
  raw("a list", "[]", /expected/),
  raw("a text", '"loomproof/1"', /expected/),
  wrong("NaN", '"rated": "7 A"', '"rated": NaN', /expected/),
  wrong("Infinity", '"rated": "7 A"', '"rated": Infinity', /expected/),
  wrong("a trailing comma", '"label": "Battery", ', '"label": "Battery",, ', /expected/),
  wrong("single quotes", '"label": "Battery"', "'label': 'Battery'", /expected/),
  wrong("a comment", '"parts": [', '"parts": [ // all of them', /expected/),
  wrong("a key without quotes", '"label": "Battery"', 'label: "Battery"', /expected/),
  wrong("a missing colon", '"label": "Battery"', '"label" "Battery"', /expected/),
  wrong("a bell inside a text", `"label": "Battery"`, `"label": "Bat\u0007tery"`, /invisible/),
  wrong("a bad escape", '"label": "Battery"', '"label": "Bat\\qtery"', /expected/),
  wrong("half an escape", '"label": "Battery"', '"label": "Bat\\u00"', /expected/),
  wrong("a leading zero", '"volts": 12', '"volts": 012', /expected/),
  raw("two values", `${base}${base}`, /expected/),
  raw("binary bytes", "\u0000\u0001\u0002\u0003", /expected/),
  raw("100 000 brackets", "[".repeat(100_000), /deep|levels|expected/),
  raw("100 000 objects in each other", '{"a":'.repeat(100_000), /deep|levels|expected/),
];

const wrongTypes: readonly Malformed[] = [
  wrong("parts as an object", '"parts": [', '"parts": {}, "x": [', /expected/),
  wrong("volts as a text", '"volts": 12', '"volts": "twelve"', /expected/),
  wrong("48 V", '"volts": 12', '"volts": 48', /expected/),
  wrong("400 V", '"volts": 12', '"volts": 400', /expected|scope/),
  wrong("a number for a quantity", '"rated": "7 A"', '"rated": 7', /expected/),
  wrong("a unit that fits another quantity", '"rated": "7 A"', '"rated": "7 V"', /"15 A"/),
  wrong("no unit", '"rated": "7 A"', '"rated": "7"', /"15 A"/),
  wrong("a decimal comma", '"rated": "7 A"', '"rated": "7,5 A"', /decimal point/),
  wrong("a negative resistance", '"coil": "85 ohm"', '"coil": "-85 ohm"', /0 or more|expected/),
  wrong("a list of three for a span", '["7 ms", "14 ms"]', '["7 ms", "14 ms", "20 ms"]', /expected/),
  wrong("a boolean for a label", '"label": "Battery"', '"label": true', /expected/),
  wrong("null for an id", '{"id": "G1"', '{"id": null', /expected/),
  wrong("an id with a dot", '{"id": "E1", "is"', '{"id": "E.1", "is"', /designation/),
  wrong("an id as long as a page", '{"id": "E1", "is"', `{"id": "${"E".repeat(5000)}", "is"`, /designation/),
  wrong("a family that is not there", '"is": "heater"', '"is": "heeter"', /heater/),
  wrong("no family", '"is": "heater", ', "", /expected/),
  wrong("a kind that is not there", '"kind": "pump"', '"kind": "pumpe"', /pump/),
  wrong("a colour that is not there", '"colour": "BN"', '"colour": "brown"', /IEC 60757/),
  wrong("a gauge that is not there", '"size": "10 mm2"', '"size": "99 AWG"', /AWG/),
  wrong("a supply that is not there", '"supply": "ranges"', '"supply": "range"', /ranges/),
  wrong("a clamp that is not there", '"clamp": {"kind": "zener"', '"clamp": {"kind": "zenner"', /expected/),
  wrong(
    "a suppression that is not there",
    '"suppression": {"resistor": "680 ohm"}',
    '"suppression": {"resister": "680 ohm"}',
    /expected|resistor/,
  ),
];

const wrongKeys: readonly Malformed[] = [
  wrong("a misspelt key of a part", '"watts": "55 W"', '"wats": "55 W"', /watts/),
  wrong("a misspelt key of a wire", '"length": "0.15 m"', '"lenght": "0.15 m"', /length/),
  wrong("a misspelt section", '"wires": [', '"wirse": [', /wires/),
  wrong("a key of another family", '"watts": "55 W"', '"capacity": "55 Ah"', /capacity/),
  wrong("a key twice", '"label": "Battery"', '"label": "Battery", "label": "Accumulator"', /twice|again|already/),
  wrong("a section twice", '"wires": [', '"wires": [], "wires": [', /twice|again|already/),
  wrong("__proto__", '"label": "Battery"', '"__proto__": {"is": "motor"}', /__proto__/),
  wrong("constructor", '"label": "Battery"', '"constructor": {"prototype": {}}', /constructor/),
  wrong("__proto__ as an id", '{"id": "E1", "is"', '{"id": "__proto__", "is"', /E1|expected/),
  wrong("toString as a unit", '"rated": "7 A"', '"rated": "7 toString"', /"15 A"/),
  wrong("no format", '"format": "loomproof/1",', "", /format/),
  wrong("an older format", "loomproof/1", "loomproof/0", /loomproof\/1/),
  wrong("a newer format", "loomproof/1", "loomproof/2", /loomproof\/2/),
  wrong("another format", "loomproof/1", "something/1", /loomproof\/1/),
];

const wrongReferences: readonly Malformed[] = [
  wrong("a wire to no part", '"to": "F1.a"', '"to": "F9.a"', /F9/),
  wrong("a wire to no terminal", '"to": "F1.a"', '"to": "F1.c"', /F1/),
  wrong("a wire from a terminal to itself", '"from": "G1.+", "to": "F1.a"', '"from": "F1.a", "to": "F1.a"', /F1\.a/),
  wrong("an id twice", '{"id": "E2", "is": "lamp"', '{"id": "E1", "is": "lamp"', /E1/),
  wrong(
    "a definition that is not there",
    '"of": "marigold-controller"',
    '"of": "marygold-controller"',
    /marigold-controller/,
  ),
  wrong("a case on no ground point", '"case": "XE1"', '"case": "K1"', /ground/),
  wrong("a rail fed by no pin", '"fedBy": "1"', '"fedBy": "11"', /11/),
  wrong("a clamp to no rail", '"to": "inside"', '"to": "outside"', /inside|outside/),
  wrong("logic of no pin", '"5": [{"awake": true}]', '"55": [{"awake": true}]', /55/),
  wrong("a condition on no pin", '{"pin": {"3": "active"}}', '{"pin": {"33": "active"}}', /33/),
  wrong("a usual value that is not among the values", '"usual": "warm"', '"usual": "hot"', /warm/),
  wrong("a world input that moves no switch", '"moves": ["S3"]', '"moves": ["S33"]', /S33/),
  wrong("a guard of no part", '"role": "guard"', '"role": "guard", "stops": {"open": ["M9"]}', /M9/),
  wrong("a guard in no position", '"role": "guard"', '"role": "guard", "stops": {"up": ["M2"]}', /up/),
  wrong("a reference that is not there", '"reference": "G1.-"', '"reference": "G9.-"', /G9/),
  wrong("suppression at no terminal", '"diode": "85>86"', '"diode": "85>88"', /88/),
  raw(
    "definitions that name each other in a ring",
    `{"format": "loomproof/1", "system": {}, "definitions": [
{"id": "a", "family": "module", "of": "b", "pins": [{"pin": "1", "kind": "plain"}]},
{"id": "b", "family": "module", "of": "a", "pins": [{"pin": "1", "kind": "plain"}]}], "parts": [{"id": "A1", "is": "module", "of": "a"}], "wires": []}`,
    /of/,
  ),
];

const tooMuch: readonly Malformed[] = [
  {
    name: "a million parts",
    text: () => whole(Array.from({ length: 1_000_000 }, () => '{"id":"X","is":"splice"}').join(",")),
    expects: /20 000|20000|20,000|limit|at most/i,
  },
  {
    name: "21 000 parts",
    text: () => whole(Array.from({ length: 21_000 }, (_, i) => `{"id":"X${i}","is":"splice"}`).join(",")),
    expects: /at most|20/,
  },
  {
    name: "a text of 15 million letters",
    text: () => whole(`{"id":"X","is":"splice","note":"${"x".repeat(15_000_000)}"}`),
    expects: /at most|characters|long/i,
  },
  { name: "a file of 25 million characters", text: () => " ".repeat(25_000_000), expects: /20|large|long|MB/i },
  {
    name: "a module with 500 pins",
    text: changed(
      '"pins": [',
      `"pins": [\n${Array.from({ length: 500 }, (_, i) => `{"pin": "p${i}", "kind": "plain"}`).join(",")},`,
    ),
    expects: /at most|400/,
  },
];

export const malformed: readonly Malformed[] = [
  ...truncated,
  ...notJson,
  ...wrongTypes,
  ...wrongKeys,
  ...wrongReferences,
  ...tooMuch,
];
