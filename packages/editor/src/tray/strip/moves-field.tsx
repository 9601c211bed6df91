import type { ResolvedLoom } from "@loomproof/netlist";
import { useId, useState } from "react";
import { Frame } from "../../panels/fields/frame.tsx";
import { exampleMoves } from "./moves.ts";

interface Props {
  readonly resolved: ResolvedLoom;
  readonly moves: string;
  readonly problem: { readonly found: string; readonly expected: string } | undefined;
  readonly play: (moves: string) => void;
}

/** The moves that are played, in the words of a script. What cannot be read stays as typed, with the reason below. */
export function MovesField({ resolved, moves, problem, play }: Props) {
  const id = useId();
  const [draft, type] = useState(moves);
  return (
    <form
      className="moves-field"
      onSubmit={(event) => {
        event.preventDefault();
        play(draft.trim());
      }}
    >
      <Frame id={id} title="" error={problem && `Found ${problem.found}; expected ${problem.expected}.`}>
        <input
          type="text"
          id={id}
          value={draft}
          aria-label="Moves"
          placeholder={exampleMoves(resolved)}
          spellCheck={false}
          autoComplete="off"
          aria-invalid={problem !== undefined}
          aria-describedby={problem === undefined ? undefined : `${id}-says`}
          onChange={(e) => type(e.target.value)}
          onKeyDown={(e) => {
            if (e.key !== "Escape" || draft === moves) return;
            e.preventDefault();
            type(moves);
          }}
        />
      </Frame>
      <button type="submit" className="plain">
        Play
      </button>
    </form>
  );
}
