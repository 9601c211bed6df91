import {
  type Dimension,
  isFree,
  type Loom,
  moveWireEnd,
  renameWire,
  setWireValue,
  spliceInto,
  whyNotConnect,
  whyNotSplice,
} from "@loomproof/netlist";
import type { ReactNode } from "react";
import { ChoiceField } from "../fields/choice-field.tsx";
import { LineField } from "../fields/line-field.tsx";
import { QuantityField } from "../fields/quantity-field.tsx";
import { refused } from "../fields/refusal.ts";
import { TerminalField } from "../fields/terminal-field.tsx";
import { capital } from "../words.ts";
import { AsInFile } from "./as-in-file.tsx";
import { ColourField } from "./colour-field.tsx";
import { type Desk, NAME_FIELD } from "./desk.ts";
import { keyWords } from "./words.ts";

type Wire = Loom["wires"][number];
type Key = Parameters<typeof setWireValue>[2];

interface Props {
  readonly desk: Desk;
  readonly wire: Wire;
  readonly deeds: ReactNode;
}

const COVERS = ["sleeved", "bare", "screened", "twisted"] as const;

/** A wire: its number, its ends, what it is made of. */
export function WireForm({ desk, wire, deeds }: Props) {
  const { loom, edit, renamed, terminals, pick } = desk;
  const { id } = wire;
  const set = (key: Key, text: string) =>
    edit(`${id}: ${keyWords(key)} ${text || "not given"}`, (l) => setWireValue(l, id, key, text || undefined));
  const quantity = (key: Key, unit: Dimension, placeholder: string, says: string) => (
    <QuantityField
      title={capital(keyWords(key))}
      says={says}
      unit={unit}
      value={typeof wire[key] === "string" ? wire[key] : ""}
      placeholder={placeholder}
      set={(text) => set(key, text)}
    />
  );
  const line = (key: Key, title: string, says: string) => (
    <LineField
      title={title}
      says={says}
      value={wire[key] ?? ""}
      placeholder="not given"
      commit={(text) => {
        return refused(set(key, text.trim()));
      }}
    />
  );
  const end = (which: "from" | "to", title: string) => (
    <TerminalField
      title={title}
      value={wire[which]}
      choices={terminals}
      set={(terminal) => {
        const other = which === "from" ? wire.to : wire.from;
        const rest = { ...loom, wires: loom.wires.filter((w) => w.id !== id) };
        return (
          whyNotConnect(rest, terminal, other) ??
          edit(`${id}: ${which} ${terminal}`, (l) => moveWireEnd(l, id, which, terminal))
        );
      }}
    />
  );
  return (
    <div className="particulars-room of-wire">
      <section className="head" aria-label={`Wire ${id}`}>
        <header>
          <h3>Wire</h3>
          {deeds}
        </header>
        <LineField
          id={NAME_FIELD}
          title="Number"
          value={id}
          commit={(next) => {
            const name = next.trim();
            if (!isFree(loom, name)) return { says: `${name} is there already.` };
            const why = edit(`${id} is ${name}`, (l) => renameWire(l, id, name));
            if (why !== undefined) return { says: why };
            renamed({ kind: "wire", id: name });
            return undefined;
          }}
        />
        {end("from", "From")}
        {end("to", "To")}
        <TerminalField
          title="Splice into it, to"
          says="Puts a splice into the wire and joins it to another terminal. Nobody knows where it was cut, so the lengths of both halves are open then."
          value=""
          placeholder="a terminal …"
          choices={terminals}
          set={(terminal) => {
            const why = whyNotSplice(loom, id, terminal);
            if (why !== undefined) return why;
            const { splice } = spliceInto(loom, id, terminal);
            const refused = edit(
              `${id} spliced with ${splice} to ${terminal}`,
              (l) => spliceInto(l, id, terminal).loom,
            );
            if (refused === undefined) pick({ kind: "part", id: splice });
            return refused;
          }}
        />
        <p className="ends">
          {[wire.from, wire.to].map((terminal) => {
            const part = terminal.split(".")[0] ?? terminal;
            return (
              <button type="button" key={terminal} className="chip" onClick={() => pick({ kind: "part", id: part })}>
                {part}
              </button>
            );
          })}
        </p>
      </section>
      <section className="values" aria-label="Values">
        <div className="grid">
          {quantity("size", "areaMm2", "not given: 1 mm2", "cross-section of the copper")}
          {quantity("length", "metres", `not given: ${loom.system.lengthUnknown ?? "1 m"}`, "length from end to end")}
          <ColourField value={wire.colour} set={(text) => set("colour", text)} />
          <ChoiceField
            title="Cover"
            says="What is round it besides its insulation"
            value={wire.cover ?? ""}
            choices={[["", "none"], ...COVERS.map((c) => [c, c] as const)]}
            set={(next) => set("cover", next)}
          />
          {quantity("rated", "amps", "by its size", "continuous current that you give it")}
          {quantity("ohms", "ohms", "by size and length", "measured from end to end")}
          {line("insulation", "Insulation", "its class or material, in your words")}
          {line("unfusedBecause", "Without a fuse because", "why no fuse protects it, in your words")}
          {line("note", "Note", "anything")}
        </div>
        <AsInFile desk={desk} section="wires" id={id} />
      </section>
    </div>
  );
}
