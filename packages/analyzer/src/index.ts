export type { On } from "./behave/loads.ts";
export { compile } from "./circuit/compile.ts";
export { analyse, analyseInSlices } from "./report/analyse.ts";
export {
  type Behaviour,
  type BehaviourRow,
  type BehaviourSeen,
  behaviour,
  behaviourInSlices,
  type Cell,
  type Column,
  type TerminalVolts,
} from "./report/behaviour.ts";
export { type BehaviourChange, compareBehaviour } from "./report/compare-behaviour.ts";
export { type Played, type PlayOptions, play, type Timeline, type TimelineEvent } from "./report/play.ts";
export type { Progress, SoFar } from "./report/progress.ts";
export {
  byGravity,
  type CouldNotCheck,
  type Coverage,
  type CutSeen,
  type Finding,
  type HoldSeen,
  type IntentSeen,
  type MoveSeen,
  type Report,
  type StateSeen,
} from "./report/report.ts";
export type { Strength } from "./report/strength.ts";
export { chartEnd, endWords, type Traces, timelineCsv, toldEvents, valueAt } from "./report/traces.ts";
export { type Reading, type Step, walk } from "./report/walk.ts";
export { rules } from "./rules/index.ts";
export { type NumberFact, type Rule, SEVERITIES, type Severity } from "./rules/rule.ts";
export { CHOICES, type Choice } from "./timeline/choice.ts";
export type { CoilValues } from "./timeline/coil.ts";
