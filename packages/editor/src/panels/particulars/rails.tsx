import { listText, type PartWith, readLine, setRail } from "@loomproof/netlist";
import { ChoiceField } from "../fields/choice-field.tsx";
import { LineField } from "../fields/line-field.tsx";
import { refused } from "../fields/refusal.ts";
import type { Desk } from "./desk.ts";

interface Props {
  readonly desk: Desk;
  readonly part: PartWith<"module">;
}

const THROUGH = [
  ["none", "nothing"],
  ["diode", "a diode"],
  ["blocking", "a switch that blocks both ways"],
] as const;

/** The inside rails of a module: which pins feed them, and through what. */
export function Rails({ desk: { loom, edit }, part }: Props) {
  const { id } = part.definition;
  const rails = loom.definitions.find((d) => d.id === id)?.rails ?? [];
  return rails.map((rail) => (
    <fieldset key={rail.id} className="rail">
      <legend>Rail {rail.id}</legend>
      <LineField
        title="Fed by pins"
        value={listText.write([rail.fedBy].flat())}
        commit={(text) => {
          const read = readLine(text, listText);
          const pins = read.ok && Array.isArray(read.value) ? (read.value as readonly string[]) : [];
          return refused(
            edit(`${id}, rail ${rail.id}: fed by ${text}`, (l) =>
              setRail(l, id, rail.id, "fedBy", pins.length === 1 ? pins[0] : pins),
            ),
          );
        }}
      />
      <ChoiceField
        title="Through"
        value={rail.through}
        choices={THROUGH}
        set={(next) => edit(`${id}, rail ${rail.id}: through ${next}`, (l) => setRail(l, id, rail.id, "through", next))}
      />
    </fieldset>
  ));
}
