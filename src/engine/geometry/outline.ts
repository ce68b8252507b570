import type { Metres, Radians } from "#engine/units";
import { extentAlong, farthestFrom, type Footprint } from "./footprint.ts";

/**
 * A convex region of the plan in its own frame: what a shelf or a chamber covers.
 *
 * A half disc is the half with x <= 0 of a disc about the origin, so that the straight edge lies on x = 0.
 * A regular polygon has its first flat facing azimuth `rotation`; `inradius` is centre to flat.
 */
export type Outline =
  | { readonly kind: "disc"; readonly radius: Metres }
  | { readonly kind: "half-disc"; readonly radius: Metres }
  | { readonly kind: "rectangle"; readonly width: Metres; readonly depth: Metres }
  | { readonly kind: "polygon"; readonly sides: number; readonly inradius: Metres; readonly rotation: Radians };

/** A flat edge: the region keeps x·nx + y·ny <= distance. */
export interface Flat {
  readonly nx: number;
  readonly ny: number;
  readonly distance: Metres;
}

/** The straight edges of an outline (none for a disc; the diameter of a half disc). */
export function flatsOf(outline: Outline): readonly Flat[] {
  switch (outline.kind) {
    case "disc":
      return [];
    case "half-disc":
      return [{ nx: 1, ny: 0, distance: 0 }];
    case "rectangle":
      return [
        { nx: 1, ny: 0, distance: outline.width / 2 },
        { nx: 0, ny: 1, distance: outline.depth / 2 },
        { nx: -1, ny: 0, distance: outline.width / 2 },
        { nx: 0, ny: -1, distance: outline.depth / 2 },
      ];
    case "polygon":
      return Array.from({ length: outline.sides }, (_, side) => {
        const azimuth = outline.rotation + (2 * Math.PI * side) / outline.sides;
        return { nx: Math.cos(azimuth), ny: Math.sin(azimuth), distance: outline.inradius };
      });
  }
}

/**
 * Least distance from the footprint to the outline's edge [m]; negative where it reaches over.
 *
 * Both in the outline's own frame. Exact for footprints inside.
 */
export function roomInside(outline: Outline, footprint: Footprint): Metres {
  let room = Infinity;
  if (outline.kind === "disc" || outline.kind === "half-disc") room = outline.radius - farthestFrom(footprint, 0, 0);
  for (const flat of flatsOf(outline)) {
    room = Math.min(room, flat.distance - extentAlong(footprint, flat.nx, flat.ny));
  }
  return room;
}

/** Area of the outline [m2]. */
export function areaOf(outline: Outline): number {
  switch (outline.kind) {
    case "disc":
      return Math.PI * outline.radius ** 2;
    case "half-disc":
      return (Math.PI / 2) * outline.radius ** 2;
    case "rectangle":
      return outline.width * outline.depth;
    case "polygon":
      return outline.sides * outline.inradius ** 2 * Math.tan(Math.PI / outline.sides);
  }
}

/** Distance from the centre to the edge in the direction `azimuth` [m]; 0 on the cut-away side of a half disc. */
export function radiusAt(outline: Outline, azimuth: Radians): Metres {
  const cos = Math.cos(azimuth);
  const sin = Math.sin(azimuth);
  let radius = outline.kind === "disc" || outline.kind === "half-disc" ? outline.radius : Infinity;
  for (const flat of flatsOf(outline)) {
    const along = cos * flat.nx + sin * flat.ny;
    if (along > 1e-12) radius = Math.min(radius, flat.distance / along);
  }
  return radius;
}

/** Radius of the smallest circle about the origin that holds the outline [m]. */
export function circumradius(outline: Outline): Metres {
  switch (outline.kind) {
    case "disc":
    case "half-disc":
      return outline.radius;
    case "rectangle":
      return Math.hypot(outline.width, outline.depth) / 2;
    case "polygon":
      return outline.inradius / Math.cos(Math.PI / outline.sides);
  }
}
