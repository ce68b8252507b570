/**
 * A face of the sheet: Besley for names, Atkinson Hyperlegible Next for all else. `…More` are the same designs' letters
 * beyond Western Europe, which ship in files of their own.
 */
export type Face = "name" | "text" | "strong" | "nameMore" | "textMore" | "strongMore";

const besley = "@fontsource/besley/files/besley";
const atkinson = "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next";

/** The file of each face, as a package path. Open Font Licence 1.1. */
export const fontFiles: Readonly<Record<Face, string>> = {
  name: `${besley}-latin-600-normal.woff`,
  text: `${atkinson}-latin-400-normal.woff`,
  strong: `${atkinson}-latin-600-normal.woff`,
  nameMore: `${besley}-latin-ext-600-normal.woff`,
  textMore: `${atkinson}-latin-ext-400-normal.woff`,
  strongMore: `${atkinson}-latin-ext-600-normal.woff`,
};

/** How an SVG names a face, so that pages look the same in a browser that has the fonts. */
export const faceStyle: Readonly<Record<Face, { readonly family: string; readonly weight: 400 | 600 }>> = {
  name: { family: "Besley", weight: 600 },
  text: { family: "Atkinson Hyperlegible Next", weight: 400 },
  strong: { family: "Atkinson Hyperlegible Next", weight: 600 },
  nameMore: { family: "Besley More", weight: 600 },
  textMore: { family: "Atkinson Hyperlegible Next More", weight: 400 },
  strongMore: { family: "Atkinson Hyperlegible Next More", weight: 600 },
};

export const moreOf: Readonly<Record<"name" | "text" | "strong", Face>> = {
  name: "nameMore",
  text: "textMore",
  strong: "strongMore",
};
