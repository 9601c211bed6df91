import { type Dimension, type Loom, listText, readLine, setPin } from "@loomproof/netlist";
import { ChoiceField } from "../fields/choice-field.tsx";
import { LineField } from "../fields/line-field.tsx";
import { QuantityField } from "../fields/quantity-field.tsx";
import { refused } from "../fields/refusal.ts";
import { capital } from "../words.ts";
import type { Desk } from "./desk.ts";
import { keyWords, stepName } from "./words.ts";

type PinText = Loom["definitions"][number]["pins"][number];
type Key = Exclude<keyof PinText, "pin">;

interface Props {
  readonly desk: Desk;
  readonly definition: string;
  readonly pin: PinText;
}

const QUANTITIES: readonly (readonly [key: Key, unit: Dimension, says: string])[] = [
  ["rated", "amps", "the most that it carries"],
  ["low", "volts", "an input is low below these"],
  ["high", "volts", "an input is high above these"],
  ["volts", "volts", "what a supply for sensors gives"],
  ["ohms", "ohms", "inside resistance of an output or a supply"],
];
const CHOICES: readonly (readonly [key: Key, words: readonly string[], says: string])[] = [
  ["limitDiode", ["yes", "no", "unknown"], "whether an input has a diode to the inside supply"],
  ["bodyDiode", ["yes", "no", "unknown"], "whether an output lets current pass backwards"],
  ["verified", ["measured", "maker", "heard"], "how it is known"],
];

/** The rarer values of a pin. */
export function PinMore({ desk: { edit }, definition, pin }: Props) {
  const set = (key: Key, value: unknown, text: string) =>
    edit(stepName(`${definition}, pin ${pin.pin}`, key, text), (l) => setPin(l, definition, pin.pin, key, value));
  const line = (key: "feed" | "note", says: string) => (
    <LineField
      title={capital(keyWords(key))}
      says={says}
      value={pin[key] ?? ""}
      placeholder="not given"
      commit={(text) => {
        return refused(set(key, text.trim() || undefined, text));
      }}
    />
  );
  return (
    <div className="grid">
      {QUANTITIES.map(([key, unit, says]) => (
        <QuantityField
          key={key}
          title={capital(keyWords(key))}
          says={says}
          unit={unit}
          value={typeof pin[key] === "string" ? pin[key] : ""}
          placeholder="catalogue"
          set={(text) => set(key, text || undefined, text)}
        />
      ))}
      {CHOICES.map(([key, words, says]) => (
        <ChoiceField
          key={key}
          title={capital(keyWords(key))}
          says={says}
          value={typeof pin[key] === "string" ? pin[key] : ""}
          choices={[["", "not given"], ...words.map((w) => [w, w] as const)]}
          set={(next) => set(key, next || undefined, next)}
        />
      ))}
      <LineField
        title="Lets act by itself"
        says="outputs that this input lets act although the inside rail is down, such as its own main relay"
        value={listText.write(pin.wakeFeeds ?? [])}
        placeholder="none"
        commit={(text) => {
          const read = readLine(text, listText);
          return refused(set("wakeFeeds", read.ok ? read.value : undefined, text));
        }}
      />
      {line("feed", "the pin or rail that an output takes its current from")}
      {line("note", "anything")}
    </div>
  );
}
