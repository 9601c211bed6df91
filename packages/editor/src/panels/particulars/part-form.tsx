import { families, type Part } from "@loomproof/netlist";
import type { ReactNode } from "react";
import { AsInFile } from "./as-in-file.tsx";
import type { Desk } from "./desk.ts";
import { PartFields } from "./part-fields.tsx";
import { PartHead } from "./part-head.tsx";
import { PinTable } from "./pin-table.tsx";
import { Rails } from "./rails.tsx";
import { TerminalList } from "./terminal-list.tsx";

interface Props {
  readonly desk: Desk;
  readonly part: Part;
  readonly deeds: ReactNode;
}

/** A part: what it is, its values, its terminals. */
export function PartForm({ desk, part, deeds }: Props) {
  const isModule = part.family === "module";
  return (
    <div className={`particulars-room${isModule ? " of-module" : ""}`}>
      <section className="head" aria-label={`${families[part.family].title} ${part.id}`}>
        <header>
          <h3 title={families[part.family].summary}>{families[part.family].title}</h3>
          {deeds}
        </header>
        <PartHead desk={desk} part={part} />
      </section>
      <section className="values" aria-label="Values">
        {isModule ? (
          <>
            <PinTable desk={desk} part={part} />
            <Rails desk={desk} part={part} />
            <AsInFile desk={desk} section="definitions" id={part.definition.id} />
          </>
        ) : (
          <>
            <div className="grid">
              <PartFields desk={desk} part={part} />
            </div>
            <AsInFile desk={desk} section="parts" id={part.id} />
          </>
        )}
      </section>
      {!isModule && (
        <section className="wiring" aria-label="Wiring">
          <h3>Terminals</h3>
          <TerminalList desk={desk} part={part} />
        </section>
      )}
    </div>
  );
}
