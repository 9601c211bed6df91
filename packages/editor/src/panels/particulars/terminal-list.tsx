import { asWritten, connect, isSameTerminal, type Loom, type Part, whyNotConnect } from "@loomproof/netlist";
import { TerminalField } from "../fields/terminal-field.tsx";
import type { Desk } from "./desk.ts";

interface Props {
  readonly desk: Desk;
  readonly part: Part;
}

/** The terminals of a part, each with its wires and a field to wire it to another. */
export function TerminalList({ desk, part }: Props) {
  const { loom, pick, edit, terminals } = desk;
  return (
    <ul className="terminals" aria-label={`Terminals of ${part.id}`}>
      {part.terminals.map(({ name, says }) => {
        const own = asWritten(loom, `${part.id}.${name}`);
        return (
          <li key={name}>
            <p>
              <b>{own}</b> {says}
              {wiresAt(loom, own).map(({ id, far }) => (
                <button type="button" key={id} className="chip" onClick={() => pick({ kind: "wire", id })}>
                  {id} to {far}
                </button>
              ))}
            </p>
            <TerminalField
              isBare
              title={`Wire ${own} to`}
              value=""
              placeholder="wire to …"
              choices={terminals}
              set={(to) =>
                whyNotConnect(loom, own, to) ?? edit(`${own} wired to ${to}`, (l) => connect(l, own, to).loom)
              }
            />
          </li>
        );
      })}
    </ul>
  );
}

const wiresAt = (loom: Loom, terminal: string) =>
  loom.wires.flatMap(({ id, from, to }) => {
    if (isSameTerminal(from, terminal)) return [{ id, far: to }];
    return isSameTerminal(to, terminal) ? [{ id, far: from }] : [];
  });
