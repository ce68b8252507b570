import { english, say, type SentenceKey } from "#words";
import type { MessageValue } from "#engine/checks";
import { line } from "./drawing.ts";
import { leading, margin, paperSizes, type, type Paper } from "./paper.ts";
import type { SheetInput } from "./sheet-input.ts";
import { strong, textLine, widthOf, wrap, type Run } from "./text.ts";

/** Part of a page: its SVG, and the height it takes [pt]. */
export interface Drawn {
  readonly svg: string;
  readonly height: number;
}

/** A label of the sheet in the reader's words. */
export function words(
  input: SheetInput,
  key: SentenceKey,
  values: Readonly<Record<string, MessageValue>> = {},
): string {
  return say({ key, values }, input.units);
}

/** The same as it stands in the middle of a line: its first letter as the catalogue has it. */
export const bare = (key: SentenceKey): string => english.sentences[key];

/** Lines of text from a top edge down; the first baseline lies one ascent below it. */
export function textBlock(
  runs: readonly Run[],
  x: number,
  top: number,
  width: number,
  size: number = type.text,
): Drawn {
  const lines = wrap(runs, size, width);
  const pitch = size === type.text ? leading : size * 1.25;
  const svg = lines.map((each, i) => textLine(each, { x, y: top + size * 0.98 + i * pitch, size })).join("");
  return { svg, height: lines.length * pitch };
}

export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  /** Lower edge of what may be printed on. */
  readonly bottom: number;
}

export function frameOf(paper: Paper): Frame {
  const { width, height } = paperSizes[paper];
  return { width, height, left: margin, right: width - margin, bottom: height - margin };
}

/** Title, page number, a line or two of what this is, and a heavy rule. Returns where the page goes on. */
export function header(frame: Frame, title: string, count: string, under: readonly Run[]): Drawn {
  const countWidth = 70;
  const head = textBlock(
    [{ text: title, face: "name" }],
    frame.left,
    margin - 3,
    frame.right - frame.left - countWidth,
    type.title,
  );
  const sub = textBlock(under, frame.left, margin + head.height - 2, frame.right - frame.left);
  const rule = margin + head.height + sub.height + 5;
  return {
    svg: [
      head.svg,
      textLine([strong(count)], { x: frame.right, y: margin + type.title * 0.78, size: type.text, anchor: "end" }),
      sub.svg,
      line([frame.left, rule], [frame.right, rule], { width: 2.6 }),
    ].join(""),
    height: rule + 2,
  };
}

export function svgPage(frame: Frame, content: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${frame.width}pt" height="${frame.height}pt" viewBox="0 0 ${frame.width} ${frame.height}"><rect width="${frame.width}" height="${frame.height}" fill="white"/>${content}</svg>`;
}

/** A labelled line to write on, from `x` to `right`, its baseline at `y`. */
export function writeLine(label: string, x: number, right: number, y: number, face: Run["face"] = "text"): string {
  const run = { text: label, face };
  const from = label === "" ? x : x + Math.max(widthOf([run], type.text), 24) + 8;
  return textLine([run], { x, y, size: type.text }) + line([from, y + 3], [right, y + 3], { width: 0.9 });
}
