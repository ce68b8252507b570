import { backs } from "./back.ts";
import { fronts } from "./front.ts";
import type { SheetInput } from "./sheet-input.ts";

/**
 * The loader's sheet as pages of SVG, in the size of the paper [pt].
 *
 * Fronts first: a block for each shelf from the bottom up, as many pages as they need, with the cautions of loading;
 * then the back: the kiln from the side, forecast, second look, lines for the record, cautions. Black and white, text
 * of 14 pt and up, only numbers on plans smaller. The same input gives the same text.
 *
 * @throws RangeError naming a piece, shape or shelf type that the setting refers to and the load has not
 */
export function loadersSheet(input: SheetInput): readonly string[] {
  const pages = [...fronts(input), ...backs(input)];
  return pages.map(({ draw }, index) => draw(index + 1, pages.length));
}
