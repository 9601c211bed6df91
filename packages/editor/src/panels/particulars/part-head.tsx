import { families, isFree, type Part, renamePart, setValue } from "@loomproof/netlist";
import { ChoiceField } from "../fields/choice-field.tsx";
import { LineField } from "../fields/line-field.tsx";
import { refused } from "../fields/refusal.ts";
import { type Desk, NAME_FIELD } from "./desk.ts";

interface Props {
  readonly desk: Desk;
  readonly part: Part;
}

const HARMS = ["crank", "move", "fuel", "heat", "none"] as const;

/** What a part is called and what it is. */
export function PartHead({ desk: { loom, edit, renamed }, part }: Props) {
  const { id, family, kind } = part;
  const { title, kinds } = families[family];
  const text = loom.parts.find((p) => p.id === id);
  const points = loom.parts.filter((p) => p.is === "ground-point");
  const put = (key: string, value: string, says: string) =>
    edit(`${id}: ${says}`, (l) => setValue(l, id, key, value === "" ? undefined : value));
  const mayHaveCase = part.terminals.some((t) => t.needs === "wire or case") || text?.case !== undefined;
  return (
    <>
      <LineField
        id={NAME_FIELD}
        title="Designation"
        value={id}
        commit={(next) => {
          const name = next.trim();
          if (!isFree(loom, name)) return { says: `${name} is there already.` };
          const why = edit(`${id} is ${name}`, (l) => renamePart(l, id, name));
          if (why === undefined) renamed({ kind: "part", id: name });
          return refused(why);
        }}
      />
      <LineField
        title="Label"
        value={text?.label ?? ""}
        placeholder={title}
        commit={(next) => refused(put("label", next.trim(), `label ${next.trim() || "none"}`))}
      />
      {kinds.length > 1 && (
        <ChoiceField
          title="Kind"
          value={kind}
          choices={kinds.map((k) => [k, k])}
          set={(next) => put("kind", next, `kind ${next}`)}
        />
      )}
      <ChoiceField
        title="Harm if on unasked"
        says="What happens when it is on although nobody asked for it"
        value={text?.harm ?? ""}
        choices={[
          ["", `${text?.harm === undefined ? part.harm : "as its kind"} (catalogue)`],
          ...HARMS.map((h) => [h, h] as const),
        ]}
        set={(next) => put("harm", next, `harm ${next || "as in the catalogue"}`)}
      />
      {mayHaveCase && (
        <ChoiceField
          title="Body sits on"
          says="The ground point whose metal its body touches"
          value={text?.case ?? ""}
          choices={[["", "nothing"], ...points.map((p) => [p.id, `${p.id} ${p.label ?? ""}`] as const)]}
          set={(next) => put("case", next, next === "" ? "body on nothing" : `body on ${next}`)}
        />
      )}
      <LineField title="Note" value={text?.note ?? ""} commit={(next) => refused(put("note", next.trim(), "note"))} />
    </>
  );
}
