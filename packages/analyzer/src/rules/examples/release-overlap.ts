import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";
import { behindRestContact } from "./rest-contact.ts";

// A window motor that two pairs of relays turn either way. All invented.

const parts = {
  "G1 battery": {},
  "F1 protector": {},
  "F2 protector": {},
  "S1 switch": {
    positions: ["up", "stop", "down"],
    joins: { up: [["1", "2"]], stop: [], down: [["1", "3"]] },
  },
  "M1 motor": {},
};
const pair = { operateTime: "7 ms", releaseTime: "30 ms", suppression: { diode: "85>86" } };

const fourRelays = (times: Readonly<Record<string, unknown>>) =>
  sketch({
    parts: {
      ...parts,
      "K1 relay make": times,
      "K2 relay make": times,
      "K3 relay make": times,
      "K4 relay make": times,
    },
    wires: [
      "G1.+ F1.a",
      "G1.+ F2.a",
      "F2.b S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "S1.2 K2.86",
      "K2.85 G1.-",
      "S1.3 K3.86",
      "K3.85 G1.-",
      "S1.3 K4.86",
      "K4.85 G1.-",
      "F1.b K1.30",
      "K1.87 M1.+",
      "M1.- K2.30",
      "K2.87 G1.-",
      "F1.b K3.30",
      "K3.87 M1.-",
      "M1.+ K4.30",
      "K4.87 G1.-",
    ],
  });

export const releaseOverlapExamples = (): readonly RuleExample[] => [
  {
    title: "four relays with diodes, turned from one way to the other without a stop",
    loom: fourRelays(pair),
    expects: ["danger certain release-overlap:K1+K4", "danger certain release-overlap:K2+K3"],
  },
  {
    title: "two changeover relays: whatever the times, nothing can lie between feed and ground",
    loom: sketch({
      parts: { ...parts, "K1 relay changeover": pair, "K2 relay changeover": pair },
      wires: [
        "G1.+ F1.a",
        "G1.+ F2.a",
        "F2.b S1.1",
        "S1.2 K1.86",
        "K1.85 G1.-",
        "S1.3 K2.86",
        "K2.85 G1.-",
        "F1.b K1.87",
        "G1.- K1.87a",
        "K1.30 M1.+",
        "F1.b K2.87",
        "G1.- K2.87a",
        "K2.30 M1.-",
      ],
    }),
    expects: [],
  },
  {
    title: "relays that let go faster than others pull in",
    loom: fourRelays({ operateTime: "20 ms", releaseTime: "2 ms" }),
    expects: [],
  },
  {
    title: "times not given: they may be in together",
    loom: fourRelays({}),
    expects: ["danger possible release-overlap:K1+K4", "danger possible release-overlap:K2+K3"],
  },
  {
    title: "a relay that would hold itself through a rest contact, but lets go 3 ms before that closes",
    loom: behindRestContact("2 ms"),
    expects: ["caution certain release-overlap:K1+K2"],
  },
  {
    title: "the same, slower: it holds itself in, and is told as that",
    loom: behindRestContact("9 ms"),
    expects: [],
  },
  {
    title: "the rest contact leads to a lamp: no order of the two matters",
    loom: behindRestContact("2 ms", "K1.87a E1.a"),
    expects: [],
  },
];
