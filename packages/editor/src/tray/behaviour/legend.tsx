import { CellMark } from "./marks.tsx";

const MARKS = [
  ["on", "on, awake"],
  ["partly", "partly, asleep"],
  ["off", "off"],
  ["in", "in"],
  ["held", "held in by what came before"],
  ["out", "out"],
] as const;

/** What the marks in the table say. */
export function Legend() {
  return (
    <ul className="marks" aria-label="What the marks say">
      {MARKS.map(([word, says]) => (
        <li key={word} className={word}>
          <span>
            <CellMark word={word} size={16} />
          </span>
          {says}
        </li>
      ))}
    </ul>
  );
}
