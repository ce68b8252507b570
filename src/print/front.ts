import { shelvesFromBottom } from "#engine/kiln";
import { cautions, formatDay } from "#words";
import { line } from "./drawing.ts";
import { frameOf, header, svgPage, textBlock, words, type Frame } from "./page-frame.ts";
import { margin } from "./paper.ts";
import { turnOf } from "./plan-view.ts";
import { shelfBlocks, type ShelfBlock } from "./shelf-block.ts";
import type { SheetInput } from "./sheet-input.ts";
import { plain, strong, type Run } from "./text.ts";

/** What is on one front: drawn once the number of pages is known. */
export interface Front {
  readonly draw: (page: number, pages: number) => string;
}

/** Sides of the square a plan is drawn in [pt], largest first: the largest that costs no page and no broken line is used. */
const planSizes = [168, 144, 118, 108] as const;
const mostOnPage = 6;

/** Fronts of the sheet: a block for each shelf, bottom shelf first, as many pages as they need. */
export function fronts(input: SheetInput): readonly Front[] {
  const choices =
    input.plans === "large" ? [pagesOfBlocks(input, null)] : planSizes.map((plan) => pagesOfBlocks(input, plan));
  const fewest = Math.min(...choices.map((pages) => pages.length));
  const short = choices.filter((pages) => pages.length === fewest);
  const rowsOf = (pages: readonly (readonly ShelfBlock[])[]): number =>
    pages.flat().reduce((sum, { rows }) => sum + rows, 0);
  const fewestRows = Math.min(...short.map(rowsOf));
  const pages = short.find((each) => rowsOf(each) === fewestRows) ?? [[]];
  return pages.map((blocks, index) => ({ draw: (page, count) => drawFront(input, blocks, index === 0, page, count) }));
}

/** Blocks dealt to pages with plans of one size; null: as large as a page allows, a shelf a page. */
function pagesOfBlocks(input: SheetInput, plan: number | null): readonly (readonly ShelfBlock[])[] {
  const probe = frameOf(input.paper);
  const top = header(probe, titleOf(input), "", subtitle(input)).height;
  const wholePage = probe.bottom - top;
  const firstPage = wholePage - footer(probe).height;
  const width = probe.right - probe.left;
  const shape = {
    plan: plan ?? Math.min(width - 130, firstPage * 0.56),
    width,
    most: firstPage - 4,
    layout: plan === null ? ("below" as const) : ("beside" as const),
  };
  const pages: ShelfBlock[][] = [[]];
  let used = 0;
  for (const shelf of shelvesFromBottom(input.load.setting)) {
    for (const [part, block] of shelfBlocks(input, shelf, shape).entries()) {
      let page = pages.at(-1) ?? [];
      const room = pages.length === 1 ? firstPage : wholePage;
      const isNew = page.length >= mostOnPage || used + block.height > room || (plan === null && part === 0);
      if (isNew && page.length > 0) {
        page = [];
        pages.push(page);
        used = 0;
      }
      page.push(block);
      used += block.height;
    }
  }
  return pages;
}

function drawFront(
  input: SheetInput,
  blocks: readonly ShelfBlock[],
  first: boolean,
  page: number,
  pages: number,
): string {
  const frame = frameOf(input.paper);
  const head = header(frame, titleOf(input), words(input, "sheet.page", { page, pages }), subtitle(input));
  const foot = footer(frame);
  const room = frame.bottom - head.height - (first ? foot.height : 0);
  const used = blocks.reduce((sum, block) => sum + block.height, 0);
  const spare = Math.max(0, Math.min((room - used) / Math.max(blocks.length, 1), 30));
  let y = head.height;
  const drawn = blocks.map((block, i) => {
    const rule = i > 0 ? line([frame.left, y], [frame.right, y], { width: 0.8 }) : "";
    const svg = rule + block.draw([frame.left, y + 2]);
    y += block.height + spare;
    return svg;
  });
  if (blocks.length === 0)
    drawn.push(textBlock([plain(words(input, "sheet.empty"))], frame.left, y + 10, frame.right - frame.left).svg);
  return svgPage(frame, head.svg + drawn.join("") + (first ? foot.svg : ""));
}

export function titleOf(input: SheetInput): string {
  const { kiln, firingClass } = input.load;
  return words(input, "sheet.title", {
    kiln: kiln.name,
    kind: words(input, `sheet.kind.${firingClass.kind}`).toLowerCase(),
    cone: firingClass.cone,
  });
}

function subtitle(input: SheetInput): readonly Run[] {
  const { kiln, setting } = input.load;
  const values = { setting: input.settingName, count: setting.pieces.length };
  const sentences = [
    input.day === null
      ? words(input, "sheet.front-no-day", values)
      : words(input, "sheet.front", { ...values, day: formatDay(input.day) }),
  ];
  const spyholesLeft =
    kiln.spyholes.length > 0 && kiln.spyholes.every(({ azimuth }) => Math.cos(azimuth + turnOf(kiln)) < -0.7);
  if (kiln.opening === "door") sentences.push(words(input, "sheet.door-below"));
  else if (spyholesLeft) sentences.push(words(input, "sheet.spyhole-left"));
  return [
    plain(sentences.join(" ")),
    ...(input.stops > 0 ? [strong(` ${words(input, "sheet.stops", { count: input.stops })}`)] : []),
  ];
}

/** The cautions of loading, whole, at the foot of the first front. */
function footer(frame: Frame): { readonly svg: string; readonly height: number } {
  const runs = [strong(cautions.load.join(" "))];
  const width = frame.right - frame.left;
  const { height } = textBlock(runs, frame.left, 0, width);
  const top = frame.height - margin - height;
  return {
    svg:
      line([frame.left, top - 6], [frame.right, top - 6], { width: 2.6 }) + textBlock(runs, frame.left, top, width).svg,
    height: height + 12,
  };
}
