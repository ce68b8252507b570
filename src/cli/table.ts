/** Widest line the command writes: what a plain terminal shows. */
export const lineWidth = 80;

export interface Column {
  readonly title: string;
  readonly align?: "left" | "right";
}

/**
 * A table of text as lines of at most `lineWidth` characters.
 *
 * Columns are as wide as their widest cell; the last one takes what is left and breaks its words over several lines.
 */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): readonly string[] {
  const all = [columns.map((column) => column.title), ...rows];
  const last = columns.length - 1;
  const widths = columns.map((_, c) => Math.max(...all.map((row) => row[c].length)));
  const before = widths.slice(0, last).reduce((sum, width) => sum + width + 2, 0);
  widths[last] = Math.max(Math.min(widths[last], lineWidth - before), 12);
  return all.flatMap((row) => {
    const wrapped = wrap(row[last], widths[last]);
    return wrapped.map((part, line) =>
      row
        .map((cell, c) => {
          const text = c === last ? part : line === 0 ? cell : "";
          return columns[c].align === "right" ? text.padStart(widths[c]) : text.padEnd(widths[c]);
        })
        .join("  ")
        .trimEnd(),
    );
  });
}

/** Text broken at spaces into lines of at most `width` characters; a longer word stands alone. */
export function wrap(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** A paragraph with every line but the first indented as deep as the first text of it stands. */
export function paragraph(lead: string, text: string): readonly string[] {
  const lines = wrap(text, lineWidth - lead.length);
  return lines.map((line, index) => (index === 0 ? lead + line : " ".repeat(lead.length) + line));
}
