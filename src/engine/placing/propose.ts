import { failure, success, type Outcome, type RunControl } from "#base";
import type { PlacedCones, PlacedPiece, PlacedShelf, Setting } from "#engine/kiln";
import { conesFor } from "./cone-spots.ts";
import { decksFor } from "./deck.ts";
import { columnOf, itemOf, type Item, type KilnColumn } from "./kiln-column.ts";
import type { MipSolver } from "./mip-solver.ts";
import type { PlacingFailure, PlacingRequest, Proposal, WaitReason } from "./proposal.ts";
import { nothingPacked } from "./packer.ts";
import { Search, type Solution } from "./search.ts";
import { solveColumn } from "./solve-column.ts";
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
  const started = control.elapsed();
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
  const decks = decksFor(request.kiln, request.furniture);
  if (decks.length === 0) {
    return failure({
      reason: "no-shelf-fits",
      place: "furniture.shelves",
      problem: `No shelf in stock fits the chamber of "${request.kiln.name}" with ${request.kiln.rules.shelfMargin * 1000} mm to spare across.`,
      remedy: "Add shelves of a smaller size to the furniture, or check the chamber's and the shelves' sizes.",
    });
  }
  let column: KilnColumn | null = null;
  for (const deck of decks) {
    column = columnOf(request, deck, items);
    if (column) break;
  }
  if (!column) {
    return failure({
      reason: "no-posts",
      place: "furniture.posts",
      problem: `The posts in stock cannot carry a bottom shelf ${request.kiln.rules.bottomGap * 1000} mm above the floor.`,
      remedy: `Add at least ${request.kiln.rules.postsPerShelf} posts of one length of ${request.kiln.rules.bottomGap * 1000} mm or more.`,
    });
  }
  const fitting: Item[] = [];
  for (const item of items) {
    const reason = never(column, item, items);
    if (reason) waiting.push({ pieceId: item.piece.id, reason });
    else fitting.push(item);
  }
  column = columnOf(request, column.deck, fitting) as KilnColumn;
  const { problem } = column;
  const spent = (): number => control.elapsed() - started;
  const total = fitting.reduce((sum, item) => sum + item.worth, 0);
  const bound = Math.min(total, volumeBound(request, fitting));
  const budget = { seconds: request.seconds, steps: request.steps ?? Infinity };
  const { search, solution } = solveColumn(problem, budget, request.seed, control);
  const best = search.loosen(solution);
  const placed = new Set<Item>();
  for (const layer of best.layers) {
    for (const bay of layer.bays) for (const member of bay.members) placed.add(fitting[member] as Item);
  }
  const earlier = [...placed].map((item) => item.piece.promised).sort((a, b) => a - b);
  const median = earlier[earlier.length >> 1] ?? Infinity;
  for (const item of fitting) {
    if (placed.has(item)) continue;
    waiting.push({ pieceId: item.piece.id, reason: item.piece.promised > median ? "later-promise" : "no-room" });
  }
  return success({
    setting: settingOf(request, column, fitting, best),
    waiting,
    value: best.worth,
    bound,
    seed: request.seed,
    seconds: spent(),
  });
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

function settingOf(request: PlacingRequest, column: KilnColumn, items: readonly Item[], solution: Solution): Setting {
  const { deck, bottom } = column;
  const shelves: PlacedShelf[] = [];
  const pieces: PlacedPiece[] = [];
  const cones: PlacedCones[] = [];
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
      packed?.members.forEach((member, m) => {
        pieces.push({
          pieceId: (items[member] as Item).piece.id,
          shelfId: id,
          x: packed.poses[3 * m] as number,
          y: packed.poses[3 * m + 1] as number,
          angle: packed.poses[3 * m + 2] as number,
          fixed: false,
        });
      });
      const spot = column.coneOn(b, layer.level.z0, layer.level.z1, layer.level.top);
      if (spot) cones.push({ shelfId: id, ...spot, cones: conesFor(request.firingClass.cone) });
    });
    if (layer.level.stack) carriedBy = layer.level.stack.lengths;
  });
  return { shelves, pieces, cones };
}
