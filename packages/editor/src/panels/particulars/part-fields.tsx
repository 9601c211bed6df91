import {
  type FormField,
  fieldsOf,
  formFor,
  type Loom,
  type Part,
  positionsLine,
  readLine,
  readPositions,
  setPositions,
  setValue,
  standardJoins,
} from "@loomproof/netlist";
import { ChoiceField } from "../fields/choice-field.tsx";
import { LineField } from "../fields/line-field.tsx";
import { QuantityField } from "../fields/quantity-field.tsx";
import { refused } from "../fields/refusal.ts";
import { capital } from "../words.ts";
import type { Desk } from "./desk.ts";
import { SpanField } from "./span-field.tsx";
import { SuppressionField } from "./suppression-field.tsx";
import { catalogueOf, keyWords, stepName } from "./words.ts";

interface Props {
  readonly desk: Desk;
  readonly part: Part;
}

/** Every value of a part's family, each in the form that suits it. */
export function PartFields({ desk, part }: Props) {
  return fieldsOf(part.family).map((field) => <OneField key={field.key} desk={desk} part={part} field={field} />);
}

function OneField({ desk: { loom, edit }, part, field }: Props & { readonly field: FormField }) {
  const { id } = part;
  const { key, form, says } = field;
  const value = loom.parts.find((p) => p.id === id)?.[key] ?? undefined;
  const title = capital(keyWords(key));
  const { placeholder, mark } = catalogueOf(field);
  const set = (next: unknown, text: string) => edit(stepName(id, key, text), (l) => setValue(l, id, key, next));
  switch (form.kind) {
    case "quantity":
      return (
        <QuantityField
          title={title}
          says={says}
          unit={form.unit}
          value={typeof value === "string" ? value : ""}
          placeholder={placeholder}
          mark={value === undefined ? mark : undefined}
          set={(text) => set(text === "" ? undefined : text, text)}
        />
      );
    case "span":
      return <SpanField field={field} unit={form.unit} value={value} set={set} />;
    case "choice":
      return (
        <ChoiceField
          title={title}
          says={says}
          value={typeof value === "string" ? value : ""}
          choices={[["", `${form.standard} (catalogue)`], ...form.words.map((w) => [w, w] as const)]}
          set={(next) => set(next === "" ? undefined : next, next)}
        />
      );
    case "suppression":
      if (part.family !== "relay") return null;
      return (
        <SuppressionField
          field={field}
          value={value}
          coil={part.values.windings[0]?.between ?? ["86", "85"]}
          set={set}
        />
      );
    case "positions":
      return <PositionsField loom={loom} part={part} says={says} edit={edit} />;
    case "with positions":
      return null;
    case "line": {
      const shown = formFor(value, form.text);
      return (
        <LineField
          title={shown === form.text ? title : `${title}, as in the file`}
          says={says}
          value={value === undefined ? "" : shown.write(value)}
          placeholder={placeholder}
          mark={value === undefined ? mark : undefined}
          commit={(text) => {
            const read = readLine(text, shown);
            if (!read.ok) return { says: `It must be ${read.expected}.` };
            return refused(set(read.value, text));
          }}
        />
      );
    }
    default:
      return form satisfies never;
  }
}

interface PositionsProps {
  readonly loom: Loom;
  readonly part: Part;
  readonly says: string;
  readonly edit: Desk["edit"];
}

/** The positions of a switch with what each joins, in one line; empty shows the catalogue's. */
function PositionsField({ loom, part, says, edit }: PositionsProps) {
  if (part.family !== "switch" && part.family !== "key-switch") return null;
  const joins = part.values.joins ?? standardJoins(part.kind);
  const line = positionsLine(joins, part.values.positions);
  const isGiven = loom.parts.find((p) => p.id === part.id)?.joins !== undefined;
  return (
    <div className="wide">
      <LineField
        title="Positions and what they join"
        says={says}
        value={isGiven ? line : ""}
        placeholder={line}
        mark={isGiven ? undefined : "catalogue: DIN 72552 numbers where there are any"}
        commit={(text) => {
          const read = readPositions(text);
          if (text.trim() !== "" && !read.ok) return { says: `It must be ${read.expected}.` };
          return refused(edit(stepName(part.id, "positions", text), (l) => setPositions(l, part.id, text)));
        }}
      />
    </div>
  );
}
