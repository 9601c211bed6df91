import { useId, useState } from "react";
import { Frame } from "./frame.tsx";

interface Props {
  readonly title: string;
  readonly says?: string | undefined;
  readonly value: string;
  /** What may be chosen, as value and word. */
  readonly choices: readonly (readonly [value: string, word: string])[];
  /** Says why it cannot be. */
  readonly set: (value: string) => string | undefined;
  readonly isBare?: boolean;
}

/** One word out of a list. What cannot be is told, and the old word stands again. */
export function ChoiceField({ title, says, value, choices, set, isBare = false }: Props) {
  const id = useId();
  const [error, tell] = useState<string>();
  return (
    <Frame id={id} title={isBare ? "" : title} says={says} error={error}>
      <select
        id={id}
        value={value}
        aria-label={isBare ? title : undefined}
        aria-invalid={error !== undefined}
        aria-describedby={error === undefined ? undefined : `${id}-says`}
        onChange={(e) => tell(set(e.target.value))}
        onBlur={() => tell(undefined)}
      >
        {choices.map(([v, word]) => (
          <option key={v} value={v}>
            {word}
          </option>
        ))}
      </select>
    </Frame>
  );
}
