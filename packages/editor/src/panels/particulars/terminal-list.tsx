import { asWritten, connect, isSameTerminal, type Loom, type Part, whyNotConnect } from "@loomproof/netlist";
import { TerminalField } from "../fields/terminal-field.tsx";
import type { Desk } from "./desk.ts";

interface Props {
  readonly desk: Desk;
  readonly part: Part;
}

/** The terminals of a part, each with its wires and a field to wire it to another. */
export function TerminalList({ desk, part }: Props) {
  return (
    <ul className="terminals" aria-label={`Terminals of ${part.id}`}>
      {part.terminals.map(({ name, says }) => (
        <li key={name}>
          <p>
            <b>{asWritten(desk.loom, `${part.id}.${name}`)}</b> {says}
            <WireChips desk={desk} terminal={`${part.id}.${name}`} />
          </p>
          <WireTo desk={desk} terminal={`${part.id}.${name}`} />
        </li>
      ))}
    </ul>
  );
}

interface AtProps {
  readonly desk: Desk;
  readonly terminal: string;
}

/** The wires on a terminal, each to be picked. */
export function WireChips({ desk: { loom, pick }, terminal }: AtProps) {
  return wiresAt(loom, terminal).map(({ id, far }) => (
    <button type="button" key={id} className="chip" onClick={() => pick({ kind: "wire", id })}>
      {id} to {far}
    </button>
  ));
}

/** A field that wires a terminal to another. */
export function WireTo({ desk: { loom, edit, terminals }, terminal }: AtProps) {
  const own = asWritten(loom, terminal);
  return (
    <TerminalField
      isBare
      title={`Wire ${own} to`}
      value=""
      placeholder="wire to …"
      choices={terminals}
      set={(to) => whyNotConnect(loom, own, to) ?? edit(`${own} wired to ${to}`, (l) => connect(l, own, to).loom)}
    />
  );
}

const wiresAt = (loom: Loom, terminal: string) =>
  loom.wires.flatMap(({ id, from, to }) => {
    if (isSameTerminal(from, terminal)) return [{ id, far: to }];
    return isSameTerminal(to, terminal) ? [{ id, far: from }] : [];
  });
