import { failure, success, type Outcome, type RunControl } from "#base";
import type { PlacedCones, PlacedPiece, PlacedShelf, Setting } from "#engine/kiln";
import { conesFor } from "./cone-spots.ts";
import { decksFor } from "./deck.ts";
import { columnOf, itemOf, type Item, type KilnColumn } from "./kiln-column.ts";
import type { MipSolver } from "./mip-solver.ts";
import type { PlacingFailure, PlacingRequest, Proposal, WaitReason } from "./proposal.ts";
import { evenOut } from "./even-out.ts";
import { finishCones, type ConeRow } from "./finish-cones.ts";
import { keptColumn } from "./kept-column.ts";
import { nothingPacked, type Packed } from "./packer.ts";
import { polish } from "./polish.ts";
import { Search, type Solution } from "./search.ts";
import { solveColumn } from "./solve-column.ts";
import { withinStiltStock } from "./stilt-stock.ts";
import { volumeBound } from "./bound.ts";

/**
 * A setting of the pieces for a kiln, with the pieces that must wait and why, and a proven bound on any setting's value.
 *
 * Promises and value come first; among settings of equal value the more even and airy one is taken. Pieces marked
 * `fixed` in `keep` stay where they are, and so do its shelves.
 *
 * @param solver   solves the mixed-integer programs of the bound
 * @param control  polled for cancel; a cancelled run returns the best found so far
 * @returns failure, naming place and remedy, when no shelf or posts in stock suit the kiln
 */
export function proposeSetting(
  request: PlacingRequest,
  _solver: MipSolver,
  control: RunControl,
): Outcome<Proposal, PlacingFailure> {
  const waiting: { pieceId: string; reason: WaitReason }[] = [];
  const items: Item[] = [];
  for (const [k, piece] of request.pieces.entries()) {
    const shape = request.shapes.get(piece.shapeId);
    if (!shape) {
      return failure({
        reason: "unknown-shape",
        place: `pieces[${k}].shapeId`,
        problem: `Piece "${piece.id}" has the shape "${piece.shapeId}", which is not in the list of shapes.`,
        remedy: "Choose a shape from the list or add this one.",
      });
    }
    if (piece.classId === request.firingClass.id) items.push(itemOf(request, piece, shape));
    else waiting.push({ pieceId: piece.id, reason: "other-class" });
  }
  if (request.keep?.pieces.some((placed) => placed.fixed)) {
    return aroundKept(request, request.keep, items, waiting, control);
  }
  const decks = decksFor(request.kiln, request.furniture);
  if (decks.length === 0) return failure(noShelf(request));
  let column: KilnColumn | null = null;
  for (const deck of decks) {
    column = columnOf(request, deck, items);
    if (column) break;
  }
  if (!column) return failure(noPosts(request));
  const able: Item[] = [];
  for (const item of items) {
    const reason = never(column, item, items);
    if (reason) waiting.push({ pieceId: item.piece.id, reason });
    else able.push(item);
  }
  const { kept: fitting, without } = withinStiltStock(request, able);
  for (const { piece } of without) waiting.push({ pieceId: piece.id, reason: "no-stilt" });
  column = columnOf(request, column.deck, fitting) as KilnColumn;
  const started = control.elapsed();
  const total = fitting.reduce((sum, item) => sum + item.worth, 0);
  const bound = Math.min(total, volumeBound(request, able));
  const budget = { seconds: request.seconds * searchShare, steps: request.steps ?? Infinity };
  const { search, solution } = solveColumn(column.problem, budget, request.seed, control);
  const [even] = evenOut(search, solution, solution.worth >= total - 1e-9);
  const cones = conesFor(request.firingClass.cone);
  const finished = finishCones(request, column, search, even, cones.length, solution.worth < total - 1e-9);
  const best = polish(search, finished.solution);
  waiting.push(...whyWaiting(fitting, best));
  return success({
    setting: settingOf(column, fitting, best, finished.rows, cones),
    waiting,
    value: best.worth,
    bound,
    seed: request.seed,
    seconds: control.elapsed() - started,
  });
}

/** Share of the time for finding room; the rest makes the setting even and airy. */
const searchShare = 0.85;

/** Fills the shelves of a kept setting about its fixed pieces. */
function aroundKept(
  request: PlacingRequest,
  keep: Setting,
  items: readonly Item[],
  waiting: Proposal["waiting"][number][],
  control: RunControl,
): Outcome<Proposal, PlacingFailure> {
  const started = control.elapsed();
  const unknown = keep.shelves.find((shelf) => !request.furniture.shelves.some((type) => type.id === shelf.typeId));
  if (unknown) {
    return failure({
      reason: "unknown-shelf",
      place: `keep.shelves["${unknown.id}"].typeId`,
      problem: `Shelf "${unknown.id}" is of the kind "${unknown.typeId}", which is not in the furniture.`,
      remedy: "Choose a kind of shelf from the furniture or add this one.",
    });
  }
  const fixed = new Set(keep.pieces.filter((placed) => placed.fixed).map((placed) => placed.pieceId));
  const standing = items.filter((item) => fixed.has(item.piece.id));
  const loose = items.filter((item) => !fixed.has(item.piece.id));
  const { kept: free, without } = withinStiltStock(request, loose, standing);
  for (const { piece } of without) waiting.push({ pieceId: piece.id, reason: "no-stilt" });
  const column = keptColumn(request, keep, free);
  const budget = { seconds: request.seconds, steps: request.steps ?? Infinity };
  const { search, solution } = solveColumn(column.problem, budget, request.seed, control, column.layers);
  const best = polish(search, solution);
  const kept = standing.reduce((sum, item) => sum + item.worth, 0);
  const total = items.reduce((sum, item) => sum + item.worth, 0);
  waiting.push(...whyWaiting(free, best));
  const pieces = keep.pieces.filter((placed) => placed.fixed);
  best.layers.forEach((layer, k) => {
    layer.bays.forEach((packed) => pieces.push(...placedOn(column.shelves[k].id, packed, free)));
  });
  return success({
    setting: { shelves: keep.shelves, cones: keep.cones, pieces },
    waiting,
    value: best.worth + kept,
    bound: Math.max(Math.min(total, volumeBound(request, items)), best.worth + kept),
    seed: request.seed,
    seconds: control.elapsed() - started,
  });
}

function whyWaiting(items: readonly Item[], solution: Solution): Proposal["waiting"] {
  const placed = new Set(solution.layers.flatMap((layer) => layer.bays.flatMap((bay) => bay.members)));
  const days = [...placed].map((member) => items[member].piece.promised).sort((a, b) => a - b);
  const median = days[days.length >> 1] ?? Infinity;
  return items.flatMap((item, k) => {
    if (placed.has(k)) return [];
    const reason: WaitReason = item.piece.promised > median ? "later-promise" : "no-room";
    return [{ pieceId: item.piece.id, reason }];
  });
}

function noShelf({ kiln }: PlacingRequest): PlacingFailure {
  return {
    reason: "no-shelf-fits",
    place: "furniture.shelves",
    problem: `No shelf in stock fits the chamber of "${kiln.name}" with ${kiln.rules.shelfMargin * 1000} mm to spare across.`,
    remedy: "Add shelves of a smaller size to the furniture, or check the chamber's and the shelves' sizes.",
  };
}

function noPosts({ kiln }: PlacingRequest): PlacingFailure {
  const gap = kiln.rules.bottomGap * 1000;
  return {
    reason: "no-posts",
    place: "furniture.posts",
    problem: `The posts in stock cannot carry a bottom shelf ${gap} mm above the floor.`,
    remedy: `Add at least ${kiln.rules.postsPerShelf} posts of one length of ${gap} mm or more.`,
  };
}

/** Why an item could not be placed even in an empty kiln, or null. */
function never(column: KilnColumn, item: Item, items: readonly Item[]): WaitReason | null {
  const { problem } = column;
  if (item.mass > problem.shelfLoad) return "too-heavy";
  if (item.height > problem.roof - problem.base - problem.lidHeadroom) return "too-tall";
  const search = new Search(problem, 1, () => false);
  const index = items.indexOf(item);
  for (let bay = 0; bay < problem.bays; bay++) {
    const region = problem.region(bay, problem.base, problem.base, true);
    if (search.packer.pack({ ...region, keepOuts: [] }, nothingPacked, [index], 4)) return null;
  }
  return "too-wide";
}

function placedOn(shelfId: string, packed: Packed, items: readonly Item[]): PlacedPiece[] {
  return packed.members.map((member, m) => ({
    pieceId: items[member].piece.id,
    shelfId,
    x: packed.poses[3 * m],
    y: packed.poses[3 * m + 1],
    angle: packed.poses[3 * m + 2],
    fixed: false,
  }));
}

function settingOf(
  column: KilnColumn,
  items: readonly Item[],
  solution: Solution,
  rows: readonly ConeRow[],
  cones: readonly string[],
): Setting {
  const { deck, bottom } = column;
  const shelves: PlacedShelf[] = [];
  const pieces: PlacedPiece[] = [];
  const placedCones: PlacedCones[] = [];
  let carriedBy: readonly number[] = bottom.lengths;
  solution.layers.forEach((layer, k) => {
    deck.bays.forEach((bay, b) => {
      const id = deck.bays.length === 1 ? `shelf-${k + 1}` : `shelf-${k + 1}${String.fromCodePoint(97 + b)}`;
      shelves.push({
        id,
        typeId: deck.shelf.id,
        x: bay.at.x,
        y: bay.at.y,
        angle: bay.at.angle,
        z: layer.level.z0,
        posts: bay.posts.map(([x, y]) => ({ x, y, lengths: carriedBy })),
      });
      const packed = layer.bays[b];
      if (packed) pieces.push(...placedOn(id, packed, items));
      const row = rows.find((each) => each.layer === k && each.bay === b);
      if (row) placedCones.push({ shelfId: id, ...row.at, cones });
    });
    if (layer.level.stack) carriedBy = layer.level.stack.lengths;
  });
  return { shelves, pieces, cones: placedCones };
}
