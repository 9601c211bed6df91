import { CHOICES, type Choice } from "@loomproof/analyzer";
import { useId } from "react";
import { TIME_WORDS } from "./moves.ts";

export type Times = Choice;

/** Which of the times that relays, hands and modules may take are taken. */
export function TimesChoice({ times, choose }: { readonly times: Times; readonly choose: (times: Times) => void }) {
  const name = useId();
  return (
    <fieldset className="times-choice">
      <legend className="unseen">Times of relays</legend>
      {CHOICES.map((choice) => (
        <label key={choice} className={choice === times ? "chosen" : ""}>
          <input type="radio" name={name} checked={choice === times} onChange={() => choose(choice)} />
          {TIME_WORDS[choice]}
        </label>
      ))}
    </fieldset>
  );
}
