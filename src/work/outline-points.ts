import { circumradius, flatsOf, radiusAt, type Outline, type Placement } from "#engine/geometry";
import type { Metres } from "#engine/units";

/** A point of the plan [m]. */
export type PlanPoint = readonly [x: Metres, y: Metres];

/**
 * The outline with every side moved out by `by` [m]: a chamber grown by its wall is the kiln seen from above.
 *
 * Corners stay sharp, as brick walls are built. A half disc is never a chamber and cannot be grown.
 */
export function grownOutline(outline: Outline, by: Metres): Outline {
  switch (outline.kind) {
    case "disc":
      return { ...outline, radius: outline.radius + by };
    case "polygon":
      return { ...outline, inradius: outline.inradius + by };
    case "rectangle":
      return { ...outline, width: outline.width + 2 * by, depth: outline.depth + 2 * by };
    case "half-disc":
      throw new RangeError("a half disc cannot be grown: it is a shelf, never a chamber");
  }
}

const chordsOfCircle = 72;

/** The outline as a closed polygon, counter-clockwise, turned and moved to `at`; a circle is cut into 5° chords. */
export function outlinePoints(outline: Outline, at: Placement = { x: 0, y: 0, angle: 0 }): readonly PlanPoint[] {
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  return ownPoints(outline).map(([x, y]) => [at.x + cos * x - sin * y, at.y + sin * x + cos * y]);
}

function ownPoints(outline: Outline): PlanPoint[] {
  const around = (azimuth: number): PlanPoint => {
    const radius = radiusAt(outline, azimuth);
    return [radius * Math.cos(azimuth), radius * Math.sin(azimuth)];
  };
  switch (outline.kind) {
    case "disc":
      return Array.from({ length: chordsOfCircle }, (_, i) => around((2 * Math.PI * i) / chordsOfCircle));
    case "half-disc":
      return Array.from({ length: chordsOfCircle / 2 + 1 }, (_, i) => {
        const azimuth = Math.PI / 2 + (2 * Math.PI * i) / chordsOfCircle;
        return [outline.radius * Math.cos(azimuth), outline.radius * Math.sin(azimuth)];
      });
    case "rectangle":
      return [
        [outline.width / 2, outline.depth / 2],
        [-outline.width / 2, outline.depth / 2],
        [-outline.width / 2, -outline.depth / 2],
        [outline.width / 2, -outline.depth / 2],
      ];
    case "polygon":
      return flatsOf(outline).map((_, side) => {
        const azimuth = outline.rotation + (2 * Math.PI * (side + 0.5)) / outline.sides;
        const radius = circumradius(outline);
        return [radius * Math.cos(azimuth), radius * Math.sin(azimuth)];
      });
  }
}

/** How far a polygon reaches along a direction: least and largest x·nx + y·ny [m]. */
export function reachAlong(
  points: readonly PlanPoint[],
  nx: number,
  ny: number,
): { readonly from: Metres; readonly to: Metres } {
  const along = points.map(([x, y]) => x * nx + y * ny);
  return { from: Math.min(...along), to: Math.max(...along) };
}

/** The part of a convex polygon with x·nx + y·ny <= distance; empty if there is none. */
export function clippedBehind(
  points: readonly PlanPoint[],
  nx: number,
  ny: number,
  distance: Metres,
): readonly PlanPoint[] {
  const kept: PlanPoint[] = [];
  for (const [i, point] of points.entries()) {
    const next = points[(i + 1) % points.length];
    const here = point[0] * nx + point[1] * ny - distance;
    const there = next[0] * nx + next[1] * ny - distance;
    if (here <= 0) kept.push(point);
    if (here < 0 !== there < 0 && here !== there) {
      const t = here / (here - there);
      kept.push([point[0] + t * (next[0] - point[0]), point[1] + t * (next[1] - point[1])]);
    }
  }
  return kept;
}
