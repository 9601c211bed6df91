import { useId, useState } from "react";

interface Props {
  readonly choices: readonly string[];
  readonly add: (terminal: string) => void;
}

/** Adds a lane with the volts of a terminal. */
export function VoltsField({ choices, add }: Props) {
  const id = useId();
  const [typed, type] = useState("");
  const take = (text: string) => {
    const terminal = choices.find((c) => c.toLowerCase() === text.trim().toLowerCase());
    if (terminal !== undefined) add(terminal);
    type(terminal === undefined ? text : "");
  };
  return (
    <form
      className="volts-field"
      onSubmit={(event) => {
        event.preventDefault();
        take(typed);
      }}
    >
      <label htmlFor={id}>Volts at</label>
      <input
        type="text"
        id={id}
        list={`${id}-terminals`}
        value={typed}
        placeholder="K1.86"
        spellCheck={false}
        autoComplete="off"
        onChange={(e) => type(e.target.value)}
      />
      <datalist id={`${id}-terminals`}>
        {choices.map((c) => (
          <option key={c} value={c} />
        ))}
      </datalist>
      <button type="submit" className="plain">
        Add
      </button>
    </form>
  );
}
