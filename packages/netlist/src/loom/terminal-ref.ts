/** One end of a wire. */
export interface TerminalRef {
  readonly part: string;
  readonly terminal: string;
}

/** `PART.terminal`; a part with one terminal may be named without it. `1` is the terminal of such parts. */
export function readTerminal(text: string): TerminalRef {
  const dot = text.indexOf(".");
  return dot < 0 ? { part: text, terminal: "1" } : { part: text.slice(0, dot), terminal: text.slice(dot + 1) };
}

export const terminalText = (t: TerminalRef): string => `${t.part}.${t.terminal}`;
