import {
  coreCorners,
  distanceToBox,
  flatsOf,
  type Footprint,
  type Outline,
  type Placement,
  type RoundedBox,
} from "#engine/geometry";
import type { Metres } from "#engine/units";
import { besideOrAbove, pointToSegment, turnedToColumn, type Part } from "./solid.ts";

/** A shelf as a solid: its outline, turned and moved, between two heights. */
export interface Plate {
  readonly outline: Outline;
  readonly at: Placement;
  readonly bottom: Metres;
  readonly top: Metres;
}

/** The placement that leads from the kiln's plan to the plate's own frame. */
export function intoFrame(at: Placement): Placement {
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  return { x: -(cos * at.x + sin * at.y), y: sin * at.x - cos * at.y, angle: -at.angle };
}

export function toFrame(at: Placement, x: Metres, y: Metres): readonly [Metres, Metres] {
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  return [cos * (x - at.x) + sin * (y - at.y), -sin * (x - at.x) + cos * (y - at.y)];
}

export function fromFrame(at: Placement, x: Metres, y: Metres): readonly [Metres, Metres] {
  const cos = Math.cos(at.angle);
  const sin = Math.sin(at.angle);
  return [at.x + cos * x - sin * y, at.y + sin * x + cos * y];
}

/** Corners of an outline, counter-clockwise, in its own frame; the two ends of a half disc's straight edge; none for a disc. */
export function cornersOf(outline: Outline): readonly (readonly [Metres, Metres])[] {
  switch (outline.kind) {
    case "disc":
      return [];
    case "half-disc":
      return [
        [0, outline.radius],
        [0, -outline.radius],
      ];
    case "rectangle": {
      const { width, depth } = outline;
      return [
        [width / 2, -depth / 2],
        [width / 2, depth / 2],
        [-width / 2, depth / 2],
        [-width / 2, -depth / 2],
      ];
    }
    case "polygon": {
      const circumradius = outline.inradius / Math.cos(Math.PI / outline.sides);
      return Array.from({ length: outline.sides }, (_, side) => {
        const azimuth = outline.rotation + ((2 * side - 1) * Math.PI) / outline.sides;
        return [circumradius * Math.cos(azimuth), circumradius * Math.sin(azimuth)] as const;
      });
    }
  }
}

/** Distance from a point of the outline's own frame to it [m]; negative inside. Exact. */
export function distanceToOutline(outline: Outline, x: Metres, y: Metres): Metres {
  switch (outline.kind) {
    case "disc":
      return Math.hypot(x, y) - outline.radius;
    case "half-disc":
      if (x > 0) return Math.hypot(x, Math.max(Math.abs(y) - outline.radius, 0));
      return Math.max(Math.hypot(x, y) - outline.radius, x);
    case "rectangle":
      return distanceToBox(
        { x: 0, y: 0, angle: 0, halfX: outline.width / 2, halfY: outline.depth / 2, radius: 0 },
        x,
        y,
      );
    case "polygon": {
      const inside = Math.max(...flatsOf(outline).map((flat) => x * flat.nx + y * flat.ny - flat.distance));
      if (inside <= 0) return inside;
      const corners = cornersOf(outline);
      return Math.min(
        ...corners.map(([ax, ay], i) => {
          const [bx, by] = corners[(i + 1) % corners.length] as readonly [number, number];
          return pointToSegment(x, y, ax, ay, bx, by);
        }),
      );
    }
  }
}

/** Distance in the plan from a point of the kiln's frame to a plate [m]; negative inside. */
export function planDistance(plate: Plate, x: Metres, y: Metres): Metres {
  const [localX, localY] = toFrame(plate.at, x, y);
  return distanceToOutline(plate.outline, localX, localY);
}

/**
 * Distance in the plan between a plate and a rounded box of the kiln's frame [m]; negative where they overlap.
 *
 * Accuracy: 1e-7 m; exact for discs. The distance to a convex outline is convex along each edge of the box's core, so that its least
 * value there is found by halving brackets.
 */
export function boxToPlate(box: RoundedBox, plate: Plate): Metres {
  if (box.halfX === 0 && box.halfY === 0) return planDistance(plate, box.x, box.y) - box.radius;
  if (plate.outline.kind === "disc") return distanceToBox(box, plate.at.x, plate.at.y) - plate.outline.radius;
  const corners = coreCorners(box);
  let least = Infinity;
  for (let i = 0; i < 8; i += 2) {
    const next = (i + 2) % 8;
    const ax = corners[i];
    const ay = corners[i + 1];
    const ux = corners[next] - ax;
    const uy = corners[next + 1] - ay;
    least = Math.min(
      least,
      leastAlong((t) => planDistance(plate, ax + t * ux, ay + t * uy), Math.hypot(ux, uy)),
    );
    if (box.halfY === 0 && i === 2) break;
  }
  return least - box.radius;
}

/** Least value of a convex function on [0, 1], `length` metres long. */
function leastAlong(at: (t: number) => number, length: Metres): number {
  if (length === 0) return at(0);
  let low = 0;
  let high = 1;
  // The distance never changes faster than the point moves: stop when the bracket is below the accuracy.
  while ((high - low) * length > 1e-7) {
    const third = (high - low) / 3;
    if (at(low + third) < at(high - third)) high -= third;
    else low += third;
  }
  return Math.min(at(low), at(high), at(0), at(1));
}

export function footprintToPlate(footprint: Footprint, plate: Plate): Metres {
  return Math.min(...footprint.map((box) => boxToPlate(box, plate)));
}

/** Distance between a part and a plate [m]; negative where they overlap. Exact to 1e-7 m where they are apart. */
export function partToPlate(part: Part, plate: Plate): Metres {
  if (part.kind === "turned") {
    return turnedToColumn(part, planDistance(plate, part.x, part.y), plate.bottom, plate.top);
  }
  const above = Math.max(plate.bottom - part.top, part.bottom - plate.top);
  return besideOrAbove(boxToPlate(part.box, plate), above);
}

/** Distance from a point to a plate [m]; negative inside. Exact. */
export function pointToPlate(plate: Plate, x: Metres, y: Metres, z: Metres): Metres {
  const above = Math.max(plate.bottom - z, z - plate.top);
  return besideOrAbove(planDistance(plate, x, y), above);
}

/** Farthest point of a plate's outline along the unit direction (nx, ny) of the kiln's plan: the largest x·nx + y·ny [m]. */
export function plateExtent(plate: Plate, nx: number, ny: number): Metres {
  const cos = Math.cos(plate.at.angle);
  const sin = Math.sin(plate.at.angle);
  const localX = cos * nx + sin * ny;
  const localY = -sin * nx + cos * ny;
  const shift = plate.at.x * nx + plate.at.y * ny;
  const { outline } = plate;
  if (outline.kind === "disc" || (outline.kind === "half-disc" && localX <= 0)) return shift + outline.radius;
  return shift + Math.max(...cornersOf(outline).map(([x, y]) => x * localX + y * localY));
}

/**
 * How far two plates are apart in the plan [m]; negative where they overlap.
 *
 * Apart or not is exact; the depth of an overlap is the least shift over the candidate directions.
 */
export function platesApart(a: Plate, b: Plate): Metres {
  let apart = -Infinity;
  for (const [nx, ny] of [...directions(a, b), ...directions(b, a)]) {
    apart = Math.max(apart, -plateExtent(a, nx, ny) - plateExtent(b, -nx, -ny));
    apart = Math.max(apart, -plateExtent(a, -nx, -ny) - plateExtent(b, nx, ny));
  }
  return apart;
}

/** Directions that can part two convex outlines: normals of flats, and centre of an arc to centre or corner of the other. */
function directions(own: Plate, other: Plate): (readonly [number, number])[] {
  const found: (readonly [number, number])[] = flatsOf(own.outline).map(({ nx, ny }) => {
    const cos = Math.cos(own.at.angle);
    const sin = Math.sin(own.at.angle);
    return [cos * nx - sin * ny, sin * nx + cos * ny];
  });
  if (own.outline.kind === "disc" || own.outline.kind === "half-disc") {
    const targets = [
      [other.at.x, other.at.y] as const,
      ...cornersOf(other.outline).map(([x, y]) => fromFrame(other.at, x, y)),
    ];
    for (const [x, y] of targets) {
      const length = Math.hypot(x - own.at.x, y - own.at.y);
      if (length > 0) found.push([(x - own.at.x) / length, (y - own.at.y) / length]);
    }
  }
  return found;
}
