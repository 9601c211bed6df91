import type { OpenEnd } from "../circuit/circuit.ts";
import { openEndExamples } from "./examples/open-end.ts";
import type { Rule, Severity, Sighting } from "./rule.ts";

export const openEnd: Rule = {
  id: "open-end",
  title: "A terminal is not wired",
  why: "A terminal that a part needs hangs in the air, or a wire ends at a joint with nothing beyond it. The part will not work as drawn.",
  source: "common practice, no source",
  severities: ["fault", "caution"],
  blindTo: "pins of modules that may be open, and wires that are drawn but not fitted",
  examples: openEndExamples,
  *check({ circuit }) {
    for (const end of circuit.openEnds) yield sightingOf(end);
  },
};

function sightingOf(end: OpenEnd): Sighting {
  const joint = end.kind === "joint of one";
  const severity: Severity = joint || end.family === "switch" ? "caution" : "fault";
  return {
    subjects: [end.terminal],
    severity,
    run: undefined,
    at: undefined,
    ends: undefined,
    where: [end.part],
    path: [end.terminal],
    title: joint ? `${end.part} joins one wire to nothing` : `${end.terminal} is not wired`,
    text: joint ? "A joint with one wire leads nowhere." : `The ${end.says} of ${end.part} needs a wire and has none.`,
    remedy: joint
      ? "Take the wire on to where it belongs, or remove it."
      : `Draw the wire that belongs on ${end.terminal}.`,
    numbers: [],
    harm: false,
  };
}
