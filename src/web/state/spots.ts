import {
  distanceBetweenFootprints,
  farthestFrom,
  placeFootprint,
  roomInside,
  type Footprint,
  type Outline,
  type Placement,
} from "#engine/geometry";
import {
  conePackFootprint,
  footOf,
  footprintOf,
  heightOf,
  known,
  liftOf,
  shapeOf,
  shelfTypeOf,
  type Load,
  type PlacedShelf,
} from "#engine/kiln";
import type { Metres } from "#engine/units";
import { standsOn } from "./setting-edits.ts";

/** What keeps a piece from standing at a spot. */
export type InTheWay =
  | { readonly kind: "piece"; readonly pieceId: string }
  | { readonly kind: "post" }
  | { readonly kind: "cones" }
  | { readonly kind: "edge" }
  | { readonly kind: "wall" }
  | { readonly kind: "sensor" }
  | { readonly kind: "height" };

/** Room of a piece at a spot: how much closer than the rules want the nearest thing is, and which. */
export interface SpotRoom {
  /** Distance less what the rule wants [m]; below 0 the spot is not allowed. */
  readonly spare: Metres;
  readonly nearest: InTheWay;
  /** Distance to it [m]. */
  readonly distance: Metres;
}

interface Obstacle {
  readonly what: InTheWay;
  readonly footprint: Footprint;
  readonly gap: Metres;
  readonly x: number;
  readonly y: number;
  readonly reach: number;
}

/** How much room a piece has at any spot of one shelf. Made once per drag: each question takes some microseconds. */
export interface ShelfSpots {
  readonly roomAt: (at: Placement) => SpotRoom;
  /** The same as asking whether that room is allowed, but done with at the first thing in the way. */
  readonly isFree: (at: Placement) => boolean;
}

/**
 * The rules that decide where on a shelf a piece may stand, for moving it by hand: gaps to other pieces, posts and
 * cones, its foot on the shelf, the wall, the sensor's clear half-ball, and the height to the shelf above or the lid.
 *
 * A guide while moving; the findings come from `check`, which looks at everything.
 */
export function shelfSpots(load: Load, pieceId: string, shelf: PlacedShelf): ShelfSpots {
  const { rules, chamber } = load.kiln;
  const shape = shapeOf(load, pieceId);
  const footprint = footprintOf(shape);
  const foot = footOf(shape);
  const reach = farthestFrom(footprint, 0, 0);
  const obstacles = obstaclesOn(load, pieceId, shelf);
  const { outline } = shelfTypeOf(load, shelf);
  const bottom = shelf.z + liftOf(load, known(load.pieces, pieceId, "piece"));
  const top = bottom + heightOf(shape);
  const sensors = load.kiln.sensors.map((sensor) => {
    const radius = tipRadius(chamber.plan, sensor.azimuth, sensor.reach);
    return { x: radius * Math.cos(sensor.azimuth), y: radius * Math.sin(sensor.azimuth), z: sensor.z };
  });

  /** With `stopEarly` the first thing that forbids the spot ends it. */
  const look = (at: Placement, stopEarly: boolean): SpotRoom => {
    let least = edgeRoom(roomInside(outline, placeFootprint(foot, relative(at, shelf))));
    const take = (distance: number, gap: number, nearest: InTheWay): boolean => {
      if (distance - gap < least.spare) least = { spare: distance - gap, nearest, distance };
      return stopEarly && least.spare < -hair;
    };
    if (take(Infinity, 0, { kind: "edge" })) return least;
    const placed = placeFootprint(footprint, at);
    if (take(roomInside(chamber.plan, placed), rules.wareToWall, { kind: "wall" })) return least;
    for (const obstacle of obstacles) {
      const apart = Math.hypot(obstacle.x - at.x, obstacle.y - at.y) - obstacle.reach - reach - obstacle.gap;
      if (apart >= least.spare) continue;
      if (take(distanceBetweenFootprints(placed, obstacle.footprint), obstacle.gap, obstacle.what)) return least;
    }
    for (const tip of sensors) {
      const up = Math.max(bottom - tip.z, tip.z - top, 0);
      if (up >= rules.sensorClear) continue;
      const point = { x: tip.x, y: tip.y, angle: 0, halfX: 0, halfY: 0, radius: 0 };
      const away = Math.hypot(up, Math.max(distanceBetweenFootprints(placed, [point]), 0));
      if (take(away, rules.sensorClear, { kind: "sensor" })) return least;
    }
    const above = ceilingOver(load, shelf, placed);
    take(above.z - top, above.headroom, { kind: "height" });
    return least;
  };
  return { roomAt: (at) => look(at, false), isFree: (at) => isAllowed(look(at, true)) };
}

/** A spot is allowed when it lacks no more than this: the checks' own tolerance and rounding [m]. */
const hair: Metres = 1e-5;

export const isAllowed = (room: SpotRoom): boolean => room.spare >= -hair;

/** How far apart the spots are that are tried in search of a free one [m]. */
const searchStep: Metres = 0.008;

/**
 * The free spot of a shelf nearest to a wanted one, in any of four turns; null if the piece fits nowhere on it.
 */
export function freeSpot(load: Load, pieceId: string, shelf: PlacedShelf, wanted: Placement): Placement | null {
  const { isFree } = shelfSpots(load, pieceId, shelf);
  const wide = farthestFrom(coverOf(shelfTypeOf(load, shelf).outline), 0, 0);
  const spots: { readonly x: number; readonly y: number; readonly away: number }[] = [];
  for (let x = shelf.x - wide; x <= shelf.x + wide; x += searchStep) {
    for (let y = shelf.y - wide; y <= shelf.y + wide; y += searchStep) {
      if (Math.hypot(x - shelf.x, y - shelf.y) > wide) continue;
      spots.push({ x, y, away: Math.hypot(x - wanted.x, y - wanted.y) });
    }
  }
  spots.sort((a, b) => a.away - b.away);
  const isRound = footprintOf(shapeOf(load, pieceId)).every((box) => box.x === 0 && box.halfX === 0 && box.halfY === 0);
  const turns = isRound ? [0] : [0, Math.PI / 2, Math.PI, -Math.PI / 2];
  for (const { x, y } of [wanted, ...spots]) {
    for (const turn of turns) {
      const spot = { x, y, angle: wanted.angle + turn };
      if (isFree(spot)) return spot;
    }
  }
  return null;
}

/** A footprint that reaches as far from the middle as an outline. */
function coverOf(outline: Outline): Footprint {
  const half = outline.kind === "rectangle" ? [outline.width / 2, outline.depth / 2] : [0, 0];
  const radius = outline.kind === "rectangle" ? 0 : outline.kind === "polygon" ? outline.inradius : outline.radius;
  return [{ x: 0, y: 0, angle: 0, halfX: half[0], halfY: half[1], radius }];
}

const edgeRoom = (distance: number): SpotRoom => ({ spare: distance, nearest: { kind: "edge" }, distance });

function tipRadius(plan: Outline, azimuth: number, reach: Metres): Metres {
  const point = (radius: number): Footprint => [
    { x: radius * Math.cos(azimuth), y: radius * Math.sin(azimuth), angle: 0, halfX: 0, halfY: 0, radius: 0 },
  ];
  // The wall along the azimuth by halving: exact enough at 0.1 mm for every outline.
  let [inside, outside] = [0, 5];
  while (outside - inside > 1e-4) {
    const middle = (inside + outside) / 2;
    if (roomInside(plan, point(middle)) >= 0) inside = middle;
    else outside = middle;
  }
  return inside - reach;
}

/** A place in the shelf's own frame. */
function relative(at: Placement, shelf: PlacedShelf): Placement {
  const cos = Math.cos(shelf.angle);
  const sin = Math.sin(shelf.angle);
  const dx = at.x - shelf.x;
  const dy = at.y - shelf.y;
  return { x: cos * dx + sin * dy, y: cos * dy - sin * dx, angle: at.angle - shelf.angle };
}

function obstaclesOn(load: Load, pieceId: string, shelf: PlacedShelf): readonly Obstacle[] {
  const { rules } = load.kiln;
  const found: Obstacle[] = [];
  const add = (what: InTheWay, footprint: Footprint, gap: Metres, at: Placement): void => {
    const placed = placeFootprint(footprint, at);
    found.push({ what, footprint: placed, gap, x: at.x, y: at.y, reach: farthestFrom(placed, at.x, at.y) });
  };
  const gap = load.firingClass.mayTouch ? 0 : rules.glazeGap;
  for (const other of load.setting.pieces) {
    if (other.shelfId !== shelf.id || other.pieceId === pieceId) continue;
    add({ kind: "piece", pieceId: other.pieceId }, footprintOf(shapeOf(load, other.pieceId)), gap, other);
  }
  for (const above of load.setting.shelves) {
    for (const post of above.posts) {
      if (standsOn(load, above, post)?.id !== shelf.id) continue;
      const width = load.furniture.posts.find((type) => type.length === post.lengths[0])?.width ?? 0.038;
      const side = { x: 0, y: 0, angle: 0, halfX: width / 2, halfY: width / 2, radius: 0 };
      add({ kind: "post" }, [side], rules.postGap, { x: post.x, y: post.y, angle: 0 });
    }
  }
  for (const pack of load.setting.cones) {
    if (pack.shelfId !== shelf.id) continue;
    add({ kind: "cones" }, conePackFootprint(pack.cones.length), gap, pack);
  }
  return found;
}

/** Underside of the lowest shelf over any part of the footprint, or the lid, with the headroom that is wanted there. */
function ceilingOver(
  load: Load,
  shelf: PlacedShelf,
  placed: Footprint,
): { readonly z: Metres; readonly headroom: Metres } {
  let z = load.kiln.chamber.height;
  let headroom = load.kiln.rules.lidHeadroom;
  for (const above of load.setting.shelves) {
    if (above.z <= shelf.z + 1e-6) continue;
    const type = shelfTypeOf(load, above);
    const under = above.z - type.thickness;
    if (under >= z || under < shelf.z) continue;
    if (type.outline.kind === "half-disc" && !reaches(placed, above)) continue;
    z = under;
    headroom = load.kiln.rules.headroom;
  }
  return { z, headroom };
}

/** Whether any part of a footprint lies on a half shelf's side. */
function reaches(placed: Footprint, half: PlacedShelf): boolean {
  return placed.some((box) => {
    const local = relative(box, half);
    return local.x - Math.hypot(box.halfX, box.halfY) - box.radius < 0;
  });
}
