/** Breaks a text into lines of at most `width` characters, each begun by `indent`. Words are never cut. */
export function wrap(text: string, indent: string, width: number): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && indent.length + line.length + 1 + word.length > width) {
      lines.push(indent + line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(indent + line);
  return lines.join("\n");
}
