import { circumradius } from "#engine/geometry";
import { draft, type Draft } from "./draft.ts";
import { message, share } from "./message-keys.ts";
import { ruleNumbers } from "./rule-table.ts";
import type { PieceSolid, Scene } from "./scene.ts";
import { hasShelfBelow, nextShelfAbove } from "./shelf-rules.ts";

/** Flat ware: no taller than this [m], and this many times as wide as tall. */
const flatHeight = 0.06;
const flatWidth = 2.5;
/** A neighbour hides what lies behind it when its rim stands this high over the flat piece's horizon [rad]. */
const hidingAngle = (20 * Math.PI) / 180;
/** A layer has a tall and a low end when its pieces differ by this [m]. */
const unlikeHeights = 0.05;
const enoughPieces = 6;

/** What pieces can see of the elements: ringed flat ware, low exposure, tall ware at the rim, platters at the ends. */
export function viewDrafts(scene: Scene, exposure: ReadonlyMap<string, number> | null): readonly Draft[] {
  return [
    ...ringedDrafts(scene),
    ...(exposure ? exposureDrafts(scene, exposure) : []),
    ...rimDrafts(scene),
    ...platterDrafts(scene),
  ];
}

const heightOf = (piece: PieceSolid): number => piece.top - piece.bottom;

export function isFlat(piece: PieceSolid): boolean {
  return heightOf(piece) <= flatHeight && 2 * piece.reach >= flatWidth * heightOf(piece);
}

/** Share of the way round a piece that taller neighbours hide [0..1], seen from its middle at its own top. */
export function hiddenShare(scene: Scene, piece: PieceSolid): number {
  const arcs: [number, number][] = [];
  for (const other of scene.pieces) {
    if (other === piece || other.bottom >= piece.top + 0.1 || other.top <= piece.top) continue;
    const dx = other.placed.x - piece.placed.x;
    const dy = other.placed.y - piece.placed.y;
    const away = Math.hypot(dx, dy);
    const radius = Math.max(...other.footprint.slice(0, 1).map((box) => box.radius + Math.min(box.halfX, box.halfY)));
    if (away <= radius || Math.atan2(other.top - piece.top, away - radius) < hidingAngle) continue;
    const middle = Math.atan2(dy, dx);
    const half = Math.asin(Math.min(radius / away, 1));
    const from = (middle - half + 2 * Math.PI) % (2 * Math.PI);
    const to = from + 2 * half;
    arcs.push([from, Math.min(to, 2 * Math.PI)]);
    if (to > 2 * Math.PI) arcs.push([0, to - 2 * Math.PI]);
  }
  arcs.sort((a, b) => a[0] - b[0]);
  let hidden = 0;
  let reached = 0;
  for (const [from, to] of arcs) {
    hidden += Math.max(to - Math.max(from, reached), 0);
    reached = Math.max(reached, to);
  }
  return hidden / (2 * Math.PI);
}

function ringedDrafts(scene: Scene): readonly Draft[] {
  return scene.pieces.filter(isFlat).flatMap((piece) => {
    const hidden = hiddenShare(scene, piece);
    if (hidden <= ruleNumbers.ringedShare + 1e-9) return [];
    return [
      draft("ringed", {
        shelfIds: [piece.shelf.placed.id],
        pieceIds: [piece.piece.id],
        point: [piece.placed.x, piece.placed.y, piece.top],
        measured: hidden,
        limit: ruleNumbers.ringedShare,
        message: message("found.ringed", { piece: piece.name, measured: share(hidden) }),
        advice: message("do.flat-to-rim", { piece: piece.name }),
      }),
    ];
  });
}

function exposureDrafts(scene: Scene, exposure: ReadonlyMap<string, number>): readonly Draft[] {
  const known = scene.pieces.filter((piece) => exposure.has(piece.piece.id));
  const values = known.map((piece) => exposure.get(piece.piece.id) as number).sort((a, b) => a - b);
  const median = values[Math.floor(values.length / 2)];
  if (median === undefined || values.length < enoughPieces) return [];
  const limit = median * ruleNumbers.exposureShare;
  return known.filter(isFlat).flatMap((piece) => {
    const measured = exposure.get(piece.piece.id) as number;
    if (measured >= limit - 1e-9) return [];
    return [
      draft("exposure", {
        shelfIds: [piece.shelf.placed.id],
        pieceIds: [piece.piece.id],
        point: [piece.placed.x, piece.placed.y, piece.top],
        measured,
        limit,
        message: message("found.exposure", { piece: piece.name, measured: share(measured), median: share(median) }),
        advice: message("do.more-view", { piece: piece.name }),
      }),
    ];
  });
}

/** Correlation of height with distance from the middle over the pieces of one shelf [-1..1]. */
export function heightAgainstRadius(pieces: readonly PieceSolid[]): number {
  const radii = pieces.map((piece) => Math.hypot(piece.placed.x, piece.placed.y));
  const heights = pieces.map(heightOf);
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const meanRadius = mean(radii);
  const meanHeight = mean(heights);
  let both = 0;
  let ownRadius = 0;
  let ownHeight = 0;
  radii.forEach((radius, i) => {
    const dr = radius - meanRadius;
    const dh = heights[i] - meanHeight;
    both += dr * dh;
    ownRadius += dr * dr;
    ownHeight += dh * dh;
  });
  return ownRadius > 0 && ownHeight > 0 ? both / Math.sqrt(ownRadius * ownHeight) : 0;
}

function rimDrafts(scene: Scene): readonly Draft[] {
  return scene.shelves.flatMap((shelf) => {
    const on = scene.pieces.filter((piece) => piece.shelf === shelf);
    const heights = on.map(heightOf);
    if (on.length < enoughPieces || Math.max(...heights) - Math.min(...heights) < unlikeHeights) return [];
    const measured = heightAgainstRadius(on);
    if (measured <= ruleNumbers.tallAtRim + 1e-9) return [];
    return [
      draft("tall-at-rim", {
        shelfIds: [shelf.placed.id],
        measured,
        limit: ruleNumbers.tallAtRim,
        message: message("found.tall-at-rim", { shelf: shelf.number }),
        advice: message("do.tall-inward"),
      }),
    ];
  });
}

function platterDrafts(scene: Scene): readonly Draft[] {
  if (scene.shelves.length < 3) return [];
  const platters = scene.pieces.filter(
    (piece) => isFlat(piece) && 2 * piece.reach >= Math.min(ruleNumbers.platterWidth, platterOf(scene)) - 1e-5,
  );
  return [true, false].flatMap((bottom) => {
    const at = platters.filter((piece) =>
      bottom ? !hasShelfBelow(scene, piece.shelf) : nextShelfAbove(scene, piece.shelf) === null,
    );
    const first = at[0];
    if (!first) return [];
    return [
      draft("platter-place", {
        shelfIds: [first.shelf.placed.id],
        pieceIds: at.map((piece) => piece.piece.id),
        point: [first.placed.x, first.placed.y, first.top],
        message: message(bottom ? "found.platter-bottom" : "found.platter-top", {
          piece: first.name,
          count: at.length,
        }),
        advice: message("do.platter-middle", { count: at.length }),
      }),
    ];
  });
}

/** In a small kiln a smaller plate already fills most of a shelf: 0.6 of the chamber's width. */
function platterOf(scene: Scene): number {
  return 1.2 * circumradius(scene.load.kiln.chamber.plan);
}
