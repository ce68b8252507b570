import { faceStyle, moreOf, type Face } from "./font-files.ts";
import { fontWidths } from "./font-widths.ts";

/** A stretch of text in one face. */
export interface Run {
  readonly text: string;
  readonly face: "name" | "text" | "strong";
}

export const plain = (text: string): Run => ({ text, face: "text" });
export const strong = (text: string): Run => ({ text, face: "strong" });

const advances = new Map<Face, ReadonlyMap<string, number>>(
  (Object.keys(fontWidths) as Face[]).map((face) => {
    const { letters, widths } = fontWidths[face];
    const numbers = widths.split(" ").map(Number);
    return [face, new Map(Array.from(letters, (letter, i) => [letter, numbers[i] ?? 0]))];
  }),
);

/** The fonts have a thin space, but not the one that never breaks; lines are broken here, so it makes no difference. */
const inFont = (text: string): string => text.replaceAll("\u202f", "\u2009");

/** Cuts a run where it must change to the face that has the letter. A letter that neither has is drawn as an empty box. */
function pieces(run: Run): readonly { readonly text: string; readonly face: Face }[] {
  const more = moreOf[run.face];
  const found: { text: string; face: Face }[] = [];
  for (const letter of inFont(run.text)) {
    const face = !advances.get(run.face)?.has(letter) && advances.get(more)?.has(letter) ? more : run.face;
    const last = found.at(-1);
    if (last?.face === face) last.text += letter;
    else found.push({ text: letter, face });
  }
  return found;
}

/** Width of a line of text [pt]. Kerning is left out: at most 1 % too wide. */
export function widthOf(runs: readonly Run[], size: number): number {
  let width = 0;
  for (const run of runs) {
    for (const { text, face } of pieces(run)) {
      for (const letter of text) width += advances.get(face)?.get(letter) ?? 600;
    }
  }
  return (width * size) / 1000;
}

/** Breaks text into lines no wider than `width` [pt], at spaces; a word wider than that is cut. */
export function wrap(runs: readonly Run[], size: number, width: number): readonly (readonly Run[])[] {
  const lines: Run[][] = [[]];
  const place = (word: Run): void => {
    const line = lines.at(-1) ?? [];
    if (widthOf([...line, { ...word, text: word.text.trimEnd() }], size) <= width) {
      line.push(word);
      return;
    }
    if (line.length > 0) {
      lines.push([]);
      place({ ...word, text: word.text.trimStart() });
      return;
    }
    let fits = 1;
    const letters = Array.from(word.text);
    while (fits < letters.length && widthOf([{ ...word, text: letters.slice(0, fits + 1).join("") }], size) <= width) {
      fits++;
    }
    line.push({ ...word, text: letters.slice(0, fits).join("") });
    if (fits === letters.length) return;
    lines.push([]);
    place({ ...word, text: letters.slice(fits).join("") });
  };
  for (const run of runs)
    for (const [word] of run.text.matchAll(/[^ ]* ?/g)) if (word !== "") place({ ...run, text: word });
  return lines.map(joined);
}

/** Words of one face side by side become one run again. */
function joined(line: readonly Run[]): readonly Run[] {
  const runs: { text: string; face: Run["face"] }[] = [];
  for (const { text, face } of line) {
    const last = runs.at(-1);
    if (last?.face === face) last.text += text;
    else runs.push({ text, face });
  }
  return runs;
}

export function escape(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}

export interface TextPlace {
  /** Baseline. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly anchor?: "start" | "middle" | "end";
}

/** A line of text as SVG. Placed by its measured width, so that every reader of the SVG agrees where it begins. */
export function textLine(runs: readonly Run[], { x, y, size, anchor = "start" }: TextPlace): string {
  const width = widthOf(runs, size);
  const left = anchor === "start" ? x : anchor === "middle" ? x - width / 2 : x - width;
  const spans = runs
    .flatMap(pieces)
    .map(({ text, face }) => {
      const { family, weight } = faceStyle[face];
      return `<tspan font-family="${family}" font-weight="${weight}">${escape(text)}</tspan>`;
    })
    .join("");
  return `<text xml:space="preserve" x="${round(left)}" y="${round(y)}" font-size="${size}">${spans}</text>`;
}

/** Two decimals are a 3600th of an inch: enough, and the same bytes everywhere. */
export function round(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}
