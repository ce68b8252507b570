import { shelfTypeOf, shelvesFromBottom, type Load, type PlacedShelf } from "#engine/kiln";
import { known } from "#engine/kiln";
import type { MessageValue } from "#engine/checks";
import { coneDigits } from "#words";
import { line, tickBox, type PagePoint } from "./drawing.ts";
import { bare, words, writeLine } from "./page-frame.ts";
import { leading, type } from "./paper.ts";
import { planScale, planView, turnOf } from "./plan-view.ts";
import type { SheetInput } from "./sheet-input.ts";
import { plain, strong, textLine, wrap, type Run } from "./text.ts";

/** A run of numbers on a shelf: one party's pieces of one shape, on one kind of stilt. */
interface PartyRun {
  readonly first: number;
  readonly last: number;
  readonly shape: string;
  readonly party: string;
  readonly stilt: string | null;
}

export function partyRuns(input: SheetInput, shelf: PlacedShelf): readonly PartyRun[] {
  const { load } = input;
  const runs: PartyRun[] = [];
  const onIt = load.setting.pieces
    .filter((placed) => placed.shelfId === shelf.id)
    .map((placed) => ({ placed, number: input.numbers.get(placed.pieceId)?.number ?? 0 }))
    .sort((a, b) => a.number - b.number);
  for (const { placed, number } of onIt) {
    const piece = known(load.pieces, placed.pieceId, "piece");
    const shape = known(load.shapes, piece.shapeId, "shape").name;
    const party = input.parties.get(piece.partyId) ?? piece.partyId;
    const stilt = load.furniture.stilts.find((each) => each.id === piece.stiltId)?.name ?? null;
    const last = runs.at(-1);
    if (last && last.last + 1 === number && last.shape === shape && last.party === party && last.stilt === stilt) {
      runs[runs.length - 1] = { ...last, last: number };
    } else {
      runs.push({ first: number, last: number, shape, party, stilt });
    }
  }
  return runs;
}

/** What kind of shelf it is, as one sees it at the kiln. */
function kindOf(input: SheetInput, shelf: PlacedShelf): string {
  const { load } = input;
  const type = shelfTypeOf(load, shelf);
  const alike = load.furniture.shelves.filter((other) => other.outline.kind === type.outline.kind);
  if (alike.length > 1 || type.outline.kind === "rectangle")
    return words(input, "sheet.shelf-named", { name: type.name });
  if (type.outline.kind !== "half-disc") return bare("sheet.full-shelf");
  // The round side of a half disc points along its own -x.
  const azimuth = shelf.angle + Math.PI + turnOf(load.kiln);
  const right = Math.cos(azimuth);
  const back = Math.sin(azimuth);
  if (Math.abs(right) >= Math.abs(back)) return bare(right > 0 ? "sheet.half-right" : "sheet.half-left");
  return bare(back > 0 ? "sheet.half-back" : "sheet.half-front");
}

/** Lines that say what carries the shelf. Stacks of different heights get a line each. */
function postLines(input: SheetInput, shelf: PlacedShelf): readonly string[] {
  const kind = kindOf(input, shelf);
  const groups = new Map<string, { readonly lengths: readonly number[]; count: number }>();
  for (const { lengths } of shelf.posts) {
    const key = [...lengths].sort((a, b) => b - a).join(" ");
    const group = groups.get(key) ?? { lengths: [...lengths].sort((a, b) => b - a), count: 0 };
    group.count++;
    groups.set(key, group);
  }
  const values = ({
    lengths,
    count,
  }: {
    readonly lengths: readonly number[];
    readonly count: number;
  }): Record<string, MessageValue> => ({
    kind,
    count,
    length: { value: lengths.reduce((sum, length) => sum + length, 0), quantity: "length" },
    stack: lengths.map((length) => String(Math.round(length * 1000))).join("\u00a0+\u00a0"),
  });
  const [only, ...more] = [...groups.values()];
  if (!only) return [words(input, "sheet.no-posts", { kind })];
  if (more.length === 0)
    return [words(input, only.lengths.length > 1 ? "sheet.posts-stacked" : "sheet.posts", values(only))];
  return [
    words(input, "sheet.posts-mixed", { kind, count: shelf.posts.length }),
    ...[only, ...more].map((group) =>
      words(input, group.lengths.length > 1 ? "sheet.posts-of-stacked" : "sheet.posts-of", values(group)),
    ),
  ];
}

/** A line of the list with a box to tick, already broken to its width. */
interface TickLine {
  readonly lines: readonly (readonly Run[])[];
}

const boxRoom = 22;

function tickLines(input: SheetInput, shelf: PlacedShelf, width: number): readonly TickLine[] {
  return partyRuns(input, shelf).map(({ first, last, shape, party, stilt }) => {
    const count = last - first + 1;
    const what = words(input, stilt === null ? "sheet.run" : "sheet.run-stilts", {
      what: shape,
      party,
      count,
      ...(stilt === null ? {} : { stilt }),
    });
    const range = count === 1 ? String(first) : `${first}–${last}`;
    // The catalogue's sentences begin with a capital; here a number stands before.
    const runs = [
      strong(range),
      plain(` ${shape.startsWith(what.charAt(0)) ? what : what.charAt(0).toLowerCase() + what.slice(1)}`),
    ];
    return { lines: wrap(runs, type.text, width - boxRoom) };
  });
}

/** One shelf on the sheet, or a part of it where its list is too long for a page. */
export interface ShelfBlock {
  readonly height: number;
  /** Lines of text in its list and about its posts. */
  readonly rows: number;
  readonly draw: (at: PagePoint) => string;
}

export interface BlockShape {
  /** Side of the square the plan is drawn in. */
  readonly plan: number;
  readonly width: number;
  /** The most a block may take: its page. */
  readonly most: number;
  readonly layout: "beside" | "below";
}

const columnGap = 24;
const seenWidth = 112;
const rowPitch = 19;
/** Where the list begins in a block that goes on from the page before. */
const moreTop = 30;

export function shelfBlocks(input: SheetInput, shelf: PlacedShelf, shape: BlockShape): readonly ShelfBlock[] {
  const order = shelvesFromBottom(input.load.setting);
  const number = order.indexOf(shelf) + 1;
  const beside = shape.layout === "beside";
  const textLeft = beside ? shape.plan + columnGap : 0;
  const textWidth = shape.width - textLeft - (beside ? seenWidth + 14 : 0);
  const type_ = shelfTypeOf(input.load, shelf);
  const intro = [
    ...postLines(input, shelf).flatMap((text) => wrap([plain(text)], type.text, textWidth)),
    ...(type_.mass > input.load.kiln.rules.soloLift
      ? wrap(
          [strong(words(input, "sheet.lift-two", { mass: { value: type_.mass, quantity: "mass" } }))],
          type.text,
          textWidth,
        )
      : []),
  ];
  const ticks = tickLines(input, shelf, textWidth);
  const top = beside ? 0 : shape.plan + 8;
  const introHeight = top + 28 + intro.length * leading + 4;
  const rowsBelow = (top: number): number => Math.floor((shape.most - top - 10) / rowPitch);
  const chunks = chunked(ticks, rowsBelow(introHeight), rowsBelow(moreTop));
  return chunks.map((chunk, part) => {
    const rows = chunk.reduce((sum, tick) => sum + tick.lines.length, 0);
    const first = part === 0;
    const listTop = first ? introHeight : moreTop;
    const seen = first ? seenColumn(input, shelf) : { height: 0, draw: () => "" };
    const height = Math.max(
      listTop + Math.max(rows, ticks.length === 0 ? 1 : 0) * rowPitch + 6,
      first ? seen.height : 0,
      first ? shape.plan + 14 : 0,
    );
    return {
      height,
      rows: rows + (first ? intro.length : 0),
      draw: ([x, y]) => {
        const left = x + (first ? textLeft : 0);
        const title = first
          ? shelfTitle(input, number, order.length)
          : words(input, "sheet.shelf-more", { shelf: number });
        const heading = y + (first ? top : 0);
        return [
          first
            ? planView(
                input,
                shelf,
                planScale(input.load, [x, y + 6], shape.plan),
                beside ? { least: 10, most: 15 } : { least: 12, most: 30 },
              )
            : "",
          tickBox([left, heading + 5]),
          textLine([{ text: title, face: "name" }], { x: left + boxRoom, y: heading + 18, size: type.heading }),
          first
            ? intro
                .map((each, i) => textLine(each, { x: left, y: heading + 39 + i * leading, size: type.text }))
                .join("")
            : "",
          tickList(input, chunk, left, y + listTop),
          first ? seen.draw([x + shape.width - seenWidth, y]) : "",
        ].join("");
      },
    };
  });
}

function tickList(input: SheetInput, ticks: readonly TickLine[], x: number, top: number): string {
  if (ticks.length === 0)
    return textLine([plain(words(input, "sheet.no-pieces"))], { x, y: top + 13, size: type.text });
  let y = top;
  return ticks
    .map(({ lines }) => {
      const drawn =
        tickBox([x, y]) +
        lines
          .map((each, i) => textLine(each, { x: x + boxRoom, y: y + 12.5 + i * rowPitch, size: type.text }))
          .join("");
      y += lines.length * rowPitch;
      return drawn;
    })
    .join("");
}

/** Ticks in parts: the first of at most `first` rows, the others of `later`; always at least one part. */
function chunked(ticks: readonly TickLine[], first: number, later: number): readonly (readonly TickLine[])[] {
  const parts: TickLine[][] = [[]];
  let used = 0;
  for (const tick of ticks) {
    if (used > 0 && used + tick.lines.length > (parts.length === 1 ? first : later)) {
      parts.push([]);
      used = 0;
    }
    parts.at(-1)?.push(tick);
    used += tick.lines.length;
  }
  return parts;
}

function shelfTitle(input: SheetInput, number: number, count: number): string {
  const key =
    count === 1
      ? "sheet.shelf"
      : number === 1
        ? "sheet.shelf-bottom"
        : number === count
          ? "sheet.shelf-top"
          : "sheet.shelf";
  return words(input, key, { shelf: number });
}

/** Lines to write on: the cones that will be seen on this shelf, or notes. */
function seenColumn(input: SheetInput, shelf: PlacedShelf): Pick<ShelfBlock, "height" | "draw"> {
  const cones = [...new Set(conesOn(input.load, shelf))];
  const pitch = 26;
  const rows = cones.length > 0 ? cones.map(coneDigits) : ["", ""];
  return {
    height: 46 + (rows.length - 1) * pitch + 12,
    draw: ([x, y]) =>
      [
        textLine([strong(bare(cones.length > 0 ? "sheet.cones-seen" : "sheet.notes"))], {
          x,
          y: y + 17,
          size: type.text,
        }),
        ...rows.map((label, i) =>
          label === ""
            ? line([x, y + 46 + i * pitch], [x + seenWidth, y + 46 + i * pitch], { width: 0.9 })
            : writeLine(label, x, x + seenWidth, y + 44 + i * pitch, "strong"),
        ),
      ].join(""),
  };
}

function conesOn(load: Load, shelf: PlacedShelf): readonly string[] {
  return load.setting.cones.filter((cones) => cones.shelfId === shelf.id).flatMap((cones) => cones.cones);
}
