import {
  addPin,
  clampText,
  formFor,
  type PartWith,
  PIN_KINDS,
  pullText,
  readLine,
  removePin,
  renamePin,
  setDefinition,
  setPin,
  type TextForm,
} from "@loomproof/netlist";
import { useState } from "react";
import { ChoiceField } from "../fields/choice-field.tsx";
import { LineField } from "../fields/line-field.tsx";
import { refused } from "../fields/refusal.ts";
import { listed } from "../words.ts";
import type { Desk } from "./desk.ts";
import { PinMore } from "./pin-more.tsx";
import { WireChips, WireTo } from "./terminal-list.tsx";

interface Props {
  readonly desk: Desk;
  readonly part: PartWith<"module">;
}

type PinText = Desk["loom"]["definitions"][number]["pins"][number];

const OUTPUTS: ReadonlySet<string> = new Set(["low-side", "high-side", "half-bridge"]);

/** The pins of a module. What is changed here changes every module made after the same definition. */
export function PinTable({ desk, part }: Props) {
  const { loom, edit } = desk;
  const { id, title } = part.definition;
  const text = loom.definitions.find((d) => d.id === id);
  const [told, tell] = useState("");
  const others = loom.parts.filter((p) => p.of === id && p.id !== part.id).map((p) => p.id);
  if (text === undefined) return null;
  return (
    <>
      <div className="definition">
        <LineField
          title="Title of the pin table"
          value={text.title ?? ""}
          placeholder={title}
          commit={(typed) =>
            refused(edit(`${id}: title ${typed}`, (l) => setDefinition(l, id, "title", typed.trim() || undefined)))
          }
        />
        {others.length > 0 && (
          <p className="hint">Also that of {others.join(", ")}: what is changed here changes there.</p>
        )}
      </div>
      <table className="pins">
        <thead>
          <tr>
            <th scope="col">Pin</th>
            <th scope="col">Name</th>
            <th scope="col">Kind</th>
            <th scope="col">Acts on, or clamp</th>
            <th scope="col">Pull</th>
            <th scope="col">Wakes</th>
            <th scope="col">Wires</th>
            <td />
          </tr>
        </thead>
        <tbody>
          {text.pins.map((pin, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a pin keeps its place, also under another number.
            <PinRow key={i} desk={desk} part={part} pin={pin} tell={tell} />
          ))}
        </tbody>
      </table>
      <p role="status" className="told">
        {told}
      </p>
      <button type="button" className="plain" onClick={() => edit(`${id}: new pin`, (l) => addPin(l, id).loom)}>
        Add a pin
      </button>
    </>
  );
}

interface RowProps {
  readonly desk: Desk;
  readonly part: PartWith<"module">;
  readonly pin: PinText;
  readonly tell: (says: string) => void;
}

function PinRow({ desk, part, pin, tell }: RowProps) {
  const { edit } = desk;
  const { id, pins, rails } = part.definition;
  const [isOpen, open] = useState(false);
  const name = `pin ${pin.pin}`;
  const set = (key: Exclude<keyof PinText, "pin">, value: unknown, text: string) =>
    edit(`${id}, ${name}: ${key} ${text || "as in the catalogue"}`, (l) => setPin(l, id, pin.pin, key, value));
  const line = (key: "clamp" | "bias", form: TextForm) => {
    const shown = formFor(pin[key], form);
    return {
      value: pin[key] === undefined ? "" : shown.write(pin[key]),
      commit: (typed: string) => {
        const read = readLine(typed, shown);
        return read.ok ? refused(set(key, read.value, typed)) : { says: `It must be ${read.expected}.` };
      },
    };
  };
  const isInput = pin.kind === "input";
  const remove = () => {
    const { wires, also } = removePin(desk.loom, id, pin.pin);
    const gone = [...wires, ...also];
    const why = edit(`${id}: ${name} deleted`, (l) => removePin(l, id, pin.pin).loom);
    tell(why ?? (gone.length === 0 ? "" : `Pin ${pin.pin} is deleted, and with it ${listed(gone, 8)}.`));
  };
  return (
    <>
      <tr>
        <td className="number">
          <LineField
            isBare
            title={`Number of ${name}`}
            value={pin.pin}
            commit={(typed) => {
              const to = typed.trim();
              if (pins.some((p) => p.pin === to)) return { says: `${to} is there already.` };
              return refused(edit(`${id}: ${name} is ${to}`, (l) => renamePin(l, id, pin.pin, to)));
            }}
          />
        </td>
        <td className="short">
          <LineField
            isBare
            title={`Name of ${name}`}
            value={pin.name ?? ""}
            commit={(typed) => refused(set("name", typed.trim() || undefined, typed))}
          />
        </td>
        <td>
          <ChoiceField
            isBare
            title={`Kind of ${name}`}
            value={pin.kind}
            choices={PIN_KINDS.map((k) => [k, k])}
            set={(next) => set("kind", next, next)}
          />
        </td>
        <td className="short">
          {isInput && (
            <ChoiceField
              isBare
              title={`What ${name} acts on`}
              value={pin.wants ?? ""}
              choices={[
                ["", "battery, taken"],
                ["battery", "battery"],
                ["ground", "ground"],
              ]}
              set={(next) => set("wants", next || undefined, next)}
            />
          )}
          {(OUTPUTS.has(pin.kind) || pin.clamp !== undefined) && (
            <LineField
              isBare
              title={`Clamp of ${name}`}
              placeholder={pin.kind === "low-side" ? "unknown" : "none"}
              words={["none", "unknown", ...rails.map((r) => `diode to ${r.id}`), "zener 42 V"]}
              {...line("clamp", clampText)}
            />
          )}
        </td>
        <td className="short">
          {(isInput || pin.bias !== undefined) && (
            <LineField isBare title={`Pull of ${name}`} placeholder="none" {...line("bias", pullText)} />
          )}
        </td>
        <td className="check">
          {isInput && (
            <input
              type="checkbox"
              aria-label={`${name} wakes the module`}
              checked={pin.wakes ?? false}
              onChange={(e) => set("wakes", e.target.checked || undefined, e.target.checked ? "yes" : "no")}
            />
          )}
        </td>
        <td className="wires">
          <div>
            <WireChips desk={desk} terminal={`${part.id}.${pin.pin}`} />
            <WireTo desk={desk} terminal={`${part.id}.${pin.pin}`} />
          </div>
        </td>
        <td>
          <button
            type="button"
            className="word"
            aria-label={`More of ${name}`}
            aria-expanded={isOpen}
            onClick={() => open(!isOpen)}
          >
            {isOpen ? "Less" : "More"}
          </button>
          <button
            type="button"
            className="word"
            disabled={pins.length === 1}
            aria-label={`Delete ${name}`}
            onClick={remove}
          >
            Delete
          </button>
        </td>
      </tr>
      {isOpen && (
        <tr className="more">
          <td colSpan={8}>
            <PinMore desk={desk} definition={id} pin={pin} />
          </td>
        </tr>
      )}
    </>
  );
}
