/*
 * Writes src/print/font-widths.ts: how wide each letter of the sheet's fonts is, so that pages are laid out without
 * opening a font. Run after a font package changes: npx tsx tools/measure-fonts.ts
 */
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
// The package exports the class under its name too, but its types know the default only.
// oxlint-disable-next-line import/no-named-as-default
import PDFDocument from "pdfkit";
import { fontFiles } from "../src/print/font-files.ts";

const require = createRequire(import.meta.url);
const document = new PDFDocument();
const letters = [...range(0x20, 0x7e), ...range(0xa0, 0x17f), 0x2009, ...range(0x2010, 0x2044), 0x20ac, 0x2212, 0x2122];

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

const rows = Object.entries(fontFiles).map(([face, file]) => {
  document.font(readFileSync(require.resolve(file)));
  // pdfkit keeps its fontkit font here; a letter the font lacks would be measured as the font's empty box.
  const { font } = (document as unknown as { _font: { font: { hasGlyphForCodePoint(code: number): boolean } } })._font;
  const has = letters.filter((code) => font.hasGlyphForCodePoint(code)).map((code) => String.fromCodePoint(code));
  const widths = has.map((letter) => Math.round(document.fontSize(1000).widthOfString(letter)));
  return `  ${face}: {\n    letters: ${JSON.stringify(has.join(""))},\n    widths: "${widths.join(" ")}",\n  },`;
});

writeFileSync(
  new URL("../src/print/font-widths.ts", import.meta.url),
  `// Written by tools/measure-fonts.ts from the font files: do not edit.
import type { Face } from "./font-files.ts";

/** The letters a face has, and the advance of each in their order [1/1000 of the type size]. */
export const fontWidths: Readonly<Record<Face, { readonly letters: string; readonly widths: string }>> = {
${rows.join("\n")}
};
`,
);
