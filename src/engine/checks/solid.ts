import { distanceBetweenBoxes, distanceToBox, type RoundedBox } from "#engine/geometry";
import type { Metres } from "#engine/units";

/**
 * A piece of a solid with a vertical axis, in the kiln's frame.
 *
 * `turned`: a full body of revolution about (x, y); `profile` is [radius, height] with heights never falling.
 * `upright`: a rounded box in the plan, from `bottom` to `top`.
 */
export type Part =
  | {
      readonly kind: "turned";
      readonly x: Metres;
      readonly y: Metres;
      readonly profile: readonly (readonly [Metres, Metres])[];
      readonly bottom: Metres;
      readonly top: Metres;
      /** Largest radius. */
      readonly reach: Metres;
    }
  | { readonly kind: "upright"; readonly box: RoundedBox; readonly bottom: Metres; readonly top: Metres };

type Turned = Extract<Part, { kind: "turned" }>;

/**
 * Distance between two parts [m]; negative where they overlap.
 *
 * Exact where they are apart. Where they overlap: minus the smaller of the height they share and the shift in the
 * plan that parts them, along the line of their axes (two turned parts) or as `distanceBetweenBoxes` gives it.
 */
export function distanceBetweenParts(a: Part, b: Part): Metres {
  if (a.kind === "turned") {
    return b.kind === "turned"
      ? betweenTurned(a, b)
      : turnedToColumn(a, distanceToBox(b.box, a.x, a.y), b.bottom, b.top);
  }
  if (b.kind === "turned") return turnedToColumn(b, distanceToBox(a.box, b.x, b.y), a.bottom, a.top);
  return besideOrAbove(distanceBetweenBoxes(a.box, b.box), Math.max(b.bottom - a.top, a.bottom - b.top));
}

/** Distance from a point to a part [m]; negative inside. Exact outside. */
export function distanceToPart(part: Part, x: Metres, y: Metres, z: Metres): Metres {
  if (part.kind === "turned") return turnedToColumn(part, Math.hypot(x - part.x, y - part.y), z, z);
  return besideOrAbove(distanceToBox(part.box, x, y), Math.max(part.bottom - z, z - part.top));
}

/**
 * Distance from a turned part to a column of any plan whose nearest point in the plan is `away` from the axis
 * (negative: the axis is inside) and that fills the heights `bottom` to `top`.
 *
 * A column looks the same at every height, so that the nearest points lie in the upright plane through the axis.
 */
export function turnedToColumn(part: Turned, away: Metres, bottom: Metres, top: Metres): Metres {
  const widest = widestBetween(part, bottom, top);
  if (widest !== null && away < widest) return -Math.min(widest - away, sharedHeight(part, bottom, top));
  const s = Math.max(away, 0);
  let least = Infinity;
  forEachEdge(part, (s0, z0, s1, z1) => {
    least = Math.min(least, betweenSegments(s0, z0, s1, z1, s, bottom, s, top));
  });
  return least;
}

function betweenTurned(a: Turned, b: Turned): Metres {
  const apart = Math.hypot(b.x - a.x, b.y - a.y);
  let widest = -Infinity;
  const low = Math.max(a.bottom, b.bottom);
  const high = Math.min(a.top, b.top);
  if (low <= high) {
    const heights = [low, high, ...a.profile.map(([, z]) => z), ...b.profile.map(([, z]) => z)];
    for (const z of heights) {
      if (z >= low && z <= high) widest = Math.max(widest, radiusAtHeight(a, z) + radiusAtHeight(b, z));
    }
    if (apart < widest) return -Math.min(widest - apart, high - low);
  }
  let least = Infinity;
  forEachEdge(a, (s0, z0, s1, z1) => {
    forEachEdge(b, (t0, y0, t1, y1) => {
      least = Math.min(least, betweenSegments(s0, z0, s1, z1, apart - t0, y0, apart - t1, y1));
    });
  });
  return least;
}

/** Distance of two bodies with upright sides from that of their plans and of their heights, each negative where they overlap. */
export function besideOrAbove(plan: Metres, above: Metres): Metres {
  return above > 0 && plan > 0 ? Math.hypot(plan, above) : Math.max(plan, above);
}

function sharedHeight(part: Turned, bottom: Metres, top: Metres): Metres {
  return Math.max(Math.min(top, part.top) - Math.max(bottom, part.bottom), 0);
}

/** Outline of a turned part in the upright plane through its axis: right flank, and underside and top from flank to flank. */
function forEachEdge(part: Turned, visit: (s0: number, z0: number, s1: number, z1: number) => void): void {
  const { profile } = part;
  const [firstRadius, firstHeight] = profile[0] as readonly [number, number];
  visit(-firstRadius, firstHeight, firstRadius, firstHeight);
  for (let i = 1; i < profile.length; i++) {
    const [s0, z0] = profile[i - 1] as readonly [number, number];
    const [s1, z1] = profile[i] as readonly [number, number];
    visit(s0, z0, s1, z1);
  }
  const [lastRadius, lastHeight] = profile.at(-1) as readonly [number, number];
  visit(-lastRadius, lastHeight, lastRadius, lastHeight);
}

/** Radius at a height inside the part [m]; the larger one at a step. */
export function radiusAtHeight(part: Turned, z: Metres): Metres {
  let radius = 0;
  for (let i = 1; i < part.profile.length; i++) {
    const [r0, z0] = part.profile[i - 1] as readonly [number, number];
    const [r1, z1] = part.profile[i] as readonly [number, number];
    if (z < z0 || z > z1) continue;
    radius = Math.max(radius, z1 === z0 ? Math.max(r0, r1) : r0 + ((r1 - r0) * (z - z0)) / (z1 - z0));
  }
  return radius;
}

/** Largest radius between two heights, or null where the part has no height in common with them. */
function widestBetween(part: Turned, bottom: Metres, top: Metres): Metres | null {
  const low = Math.max(bottom, part.bottom);
  const high = Math.min(top, part.top);
  if (low > high) return null;
  let widest = Math.max(radiusAtHeight(part, low), radiusAtHeight(part, high));
  for (const [radius, z] of part.profile) if (z >= low && z <= high) widest = Math.max(widest, radius);
  return widest;
}

/** Distance between two segments of a plane that do not cross [m]; 0 if they touch at an end. */
function betweenSegments(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): number {
  return Math.min(
    pointToSegment(ax, ay, cx, cy, dx, dy),
    pointToSegment(bx, by, cx, cy, dx, dy),
    pointToSegment(cx, cy, ax, ay, bx, by),
    pointToSegment(dx, dy, ax, ay, bx, by),
  );
}

export function pointToSegment(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const ux = bx - ax;
  const uy = by - ay;
  const length = ux * ux + uy * uy;
  const along = length === 0 ? 0 : Math.min(Math.max(((px - ax) * ux + (py - ay) * uy) / length, 0), 1);
  return Math.hypot(px - ax - along * ux, py - ay - along * uy);
}
