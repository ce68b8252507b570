import type { Metres, Radians } from "#engine/units";

/**
 * A rounded box in the plan: a rectangle with half sides `halfX`, `halfY`, turned by `angle` about its centre
 * (x, y), grown on all sides by `radius`. A circle has zero half sides. All in metres and radians.
 */
export interface RoundedBox {
  readonly x: Metres;
  readonly y: Metres;
  readonly angle: Radians;
  readonly halfX: Metres;
  readonly halfY: Metres;
  readonly radius: Metres;
}

/** What a piece covers seen from above: a union of rounded boxes in the piece's own frame. */
export type Footprint = readonly RoundedBox[];

/** Where a footprint stands: the shift and turn of its own frame. */
export interface Placement {
  readonly x: Metres;
  readonly y: Metres;
  readonly angle: Radians;
}

/** The same footprint turned by `at.angle` and moved to (at.x, at.y). */
export function placeFootprint(footprint: Footprint, at: Placement): Footprint {
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  return footprint.map((box) => ({
    x: at.x + cos * box.x - sin * box.y,
    y: at.y + sin * box.x + cos * box.y,
    angle: box.angle + at.angle,
    halfX: box.halfX,
    halfY: box.halfY,
    radius: box.radius,
  }));
}

/** Corners of the box's core rectangle, counter-clockwise: [x0, y0, x1, y1, x2, y2, x3, y3] [m]. */
export function coreCorners(box: RoundedBox): readonly number[] {
  const cos = Math.cos(box.angle);
  const sin = Math.sin(box.angle);
  const corner = (sx: number, sy: number): [number, number] => [
    box.x + cos * sx * box.halfX - sin * sy * box.halfY,
    box.y + sin * sx * box.halfX + cos * sy * box.halfY,
  ];
  return [...corner(1, 1), ...corner(-1, 1), ...corner(-1, -1), ...corner(1, -1)];
}

/** Distance from a point to the box's surface [m]; negative inside. Exact outside; inside, at least the core's depth. */
export function distanceToBox(box: RoundedBox, x: Metres, y: Metres): Metres {
  const cos = Math.cos(box.angle);
  const sin = Math.sin(box.angle);
  const dx = x - box.x;
  const dy = y - box.y;
  const outX = Math.abs(cos * dx + sin * dy) - box.halfX;
  const outY = Math.abs(-sin * dx + cos * dy) - box.halfY;
  const outside = Math.hypot(Math.max(outX, 0), Math.max(outY, 0));
  return outside + Math.min(Math.max(outX, outY), 0) - box.radius;
}

/**
 * Distance between two rounded boxes [m]; negative where they overlap.
 *
 * Accuracy: exact (to rounding) while the cores do not overlap; where the cores overlap, minus the least shift
 * along one of their four axes that parts them, less both radii.
 */
export function distanceBetweenBoxes(a: RoundedBox, b: RoundedBox): Metres {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const round = a.radius + b.radius;
  if (a.halfX === 0 && a.halfY === 0) return distanceToBox(b, a.x, a.y) - a.radius;
  if (b.halfX === 0 && b.halfY === 0) return distanceToBox(a, b.x, b.y) - b.radius;
  // Greatest separation over the four face normals: positive means apart, but is only a lower bound corner to corner.
  let separation = -Infinity;
  for (const [angle, own, other] of [
    [a.angle, a, b],
    [a.angle + Math.PI / 2, a, b],
    [b.angle, b, a],
    [b.angle + Math.PI / 2, b, a],
  ] as const) {
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const gap = Math.abs(dx * cos + dy * sin) - reach(own, angle) - reach(other, angle);
    if (gap > separation) separation = gap;
  }
  if (separation <= 0) return separation - round;
  // Apart: the nearest pair always includes a corner of one box.
  return Math.min(cornersToCore(a, b), cornersToCore(b, a)) - round;
}

function reach(box: RoundedBox, angle: number): number {
  const turn = angle - box.angle;
  return Math.abs(Math.cos(turn)) * box.halfX + Math.abs(Math.sin(turn)) * box.halfY;
}

function cornersToCore(corners: RoundedBox, core: RoundedBox): number {
  const points = coreCorners(corners);
  let least = Infinity;
  for (let i = 0; i < 8; i += 2) {
    least = Math.min(least, distanceToBox(core, points[i], points[i + 1]) + core.radius);
  }
  return least;
}

/** Distance between two placed footprints [m]; negative where they overlap. */
export function distanceBetweenFootprints(a: Footprint, b: Footprint): Metres {
  let least = Infinity;
  for (const boxA of a) for (const boxB of b) least = Math.min(least, distanceBetweenBoxes(boxA, boxB));
  return least;
}

/** Distance from a point to a placed footprint [m]; negative inside. */
export function distanceToFootprint(footprint: Footprint, x: Metres, y: Metres): Metres {
  let least = Infinity;
  for (const box of footprint) least = Math.min(least, distanceToBox(box, x, y));
  return least;
}

/** Greatest distance from (x, y) to any point of the footprint [m]. Exact. */
export function farthestFrom(footprint: Footprint, x: Metres, y: Metres): Metres {
  let most = 0;
  for (const box of footprint) {
    const corners = coreCorners(box);
    for (let i = 0; i < 8; i += 2) {
      most = Math.max(most, Math.hypot(corners[i] - x, corners[i + 1] - y) + box.radius);
    }
  }
  return most;
}

/** Farthest point of the footprint along the unit direction (nx, ny): the largest x·nx + y·ny [m]. Exact. */
export function extentAlong(footprint: Footprint, nx: number, ny: number): Metres {
  const angle = Math.atan2(ny, nx);
  let most = -Infinity;
  for (const box of footprint) most = Math.max(most, box.x * nx + box.y * ny + reach(box, angle) + box.radius);
  return most;
}
