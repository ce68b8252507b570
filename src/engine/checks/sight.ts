import { distanceBetweenBoxes, type RoundedBox } from "#engine/geometry";
import { planDistance, type Plate } from "./plate.ts";
import type { Part } from "./solid.ts";

export type Point = readonly [number, number, number];

/** True if the straight line from `a` to `b` passes through a part. Exact for turned parts and boxes. */
export function partBlocks(part: Part, a: Point, b: Point): boolean {
  const within = betweenHeights(a, b, part.bottom, part.top);
  if (!within) return false;
  const [from, to] = within;
  if (part.kind === "upright") return distanceBetweenBoxes(stretch(a, b, from, to), part.box) < 0;
  const { profile } = part;
  for (let i = 1; i < profile.length; i++) {
    const [r0, z0] = profile[i - 1] as readonly [number, number];
    const [r1, z1] = profile[i] as readonly [number, number];
    const slice = betweenHeights(a, b, z0, z1);
    if (slice && dipsIn(part.x, part.y, r0, z0, z1 === z0 ? 0 : (r1 - r0) / (z1 - z0), a, b, slice)) return true;
  }
  return false;
}

/** True if the straight line from `a` to `b` passes through a plate. Accuracy 1e-7 m. */
export function plateBlocks(plate: Plate, a: Point, b: Point): boolean {
  const within = betweenHeights(a, b, plate.bottom, plate.top);
  if (!within) return false;
  const at = (t: number): number => planDistance(plate, a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]));
  let [low, high] = within;
  // The distance to a convex outline is convex along the line.
  for (let i = 0; i < 60 && high - low > 1e-9; i++) {
    const third = (high - low) / 3;
    if (at(low + third) < at(high - third)) high -= third;
    else low += third;
  }
  return Math.min(at(low), at(within[0]), at(within[1])) < 0;
}

/** The part of the line a + t (b - a), t in 0..1, between two heights; null if there is none. */
function betweenHeights(a: Point, b: Point, bottom: number, top: number): readonly [number, number] | null {
  const rise = b[2] - a[2];
  if (rise === 0) return a[2] >= bottom && a[2] <= top ? [0, 1] : null;
  const t0 = (bottom - a[2]) / rise;
  const t1 = (top - a[2]) / rise;
  const from = Math.max(Math.min(t0, t1), 0);
  const to = Math.min(Math.max(t0, t1), 1);
  return from <= to ? [from, to] : null;
}

/** The line's shadow in the plan as a box of no width. */
function stretch(a: Point, b: Point, from: number, to: number): RoundedBox {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const middle = (from + to) / 2;
  return {
    x: a[0] + middle * dx,
    y: a[1] + middle * dy,
    angle: Math.atan2(dy, dx),
    halfX: (Math.hypot(dx, dy) * (to - from)) / 2,
    halfY: 0,
    radius: 0,
  };
}

/** True if the line comes nearer to the axis than the frustum's radius within the slice: a quadratic below zero. */
function dipsIn(
  x: number,
  y: number,
  r0: number,
  z0: number,
  slope: number,
  a: Point,
  b: Point,
  [from, to]: readonly [number, number],
): boolean {
  const ax = a[0] - x;
  const ay = a[1] - y;
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const radius = r0 + slope * (a[2] - z0);
  const growth = slope * (b[2] - a[2]);
  const second = dx * dx + dy * dy - growth * growth;
  const first = 2 * (ax * dx + ay * dy - radius * growth);
  const zeroth = ax * ax + ay * ay - radius * radius;
  const at = (t: number): number => (second * t + first) * t + zeroth;
  if (Math.min(at(from), at(to)) < 0) return true;
  const lowest = second > 0 ? -first / (2 * second) : from;
  return lowest > from && lowest < to && at(lowest) < 0;
}
