/** Paper of a sheet, as the studio's records name it. */
export type Paper = "a4" | "letter";

/** Width and height [pt]: ISO 216 A4 (210 x 297 mm) and US Letter (8.5 x 11 in). */
export const paperSizes: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  a4: { width: 595.28, height: 841.89 },
  letter: { width: 612, height: 792 },
};

/** Printers keep about 12 mm of every edge white. */
export const margin = 34;

/** Type sizes [pt]: readable at arm's length. Only numbers on a plan may be smaller. */
export const type = { text: 14, heading: 16, title: 19 } as const;

/** From one line of text to the next [pt]. */
export const leading = 18;
