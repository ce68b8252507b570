import { extentAlong, farthestFrom, placeFootprint, radiusAt, type Footprint, type Placement } from "#engine/geometry";
import { conePackFootprint, conePackHeight, conePitch, type Kiln } from "#engine/kiln";
import type { Region } from "./region.ts";

/** Air between a row of cones and the shelf's edge or a piece [m]; common practice, no source. */
export const coneAir = 0.005;

/** Guide, firing and guard cone for a class; the firing cone alone where its neighbours are not named in whole steps. */
export function conesFor(firing: string): readonly string[] {
  const below = /^0([1-9]\d?)$/.exec(firing);
  const name = (position: number): string => (position < 0 ? `0${-position}` : String(position + 1));
  let position: number;
  if (below) position = -Number(below[1]);
  else if (/^[1-9]\d?$/.test(firing)) position = Number(firing) - 1;
  else return [firing];
  if (position - 1 < -22 || position + 1 > 13) return [firing];
  return [name(position - 1), firing, name(position + 1)];
}

/** A row of cones, and what must stay free before it so that a spyhole shows it. */
export interface ConeSpot {
  readonly at: Placement;
  readonly free: Footprint;
}

/** The farthest that cones are moved inwards to come into a spyhole's view [m]; beyond it they cost too much room. */
const farthestIn = 0.14;

/**
 * Where a row of cones stands on a region between two heights: below a spyhole that looks into the layer, as near the
 * rim as its view allows, its side to the spyhole; else at the rim. Null if there is no place.
 */
export function coneSpot(kiln: Kiln, region: Region, cones: number, z0: number, z1: number): ConeSpot | null {
  const footprint = conePackFootprint(cones);
  const middle = (z0 + z1) / 2;
  const holes = [...kiln.spyholes].sort((a, b) => Math.abs(a.z - middle) - Math.abs(b.z - middle));
  for (const { azimuth, z } of holes) {
    if (z <= z0 || z >= z1) continue;
    const ahead = viewDistance(z - z0, cones);
    const rim = atRim(region, footprint, azimuth, Infinity);
    if (!rim || ahead > farthestIn) continue;
    const wall = radiusAt(kiln.chamber.plan, azimuth);
    const at = atRim(region, footprint, azimuth, wall - ahead - Math.hypot(region.x, region.y));
    if (at) return { at, free: corridor(footprint, at, azimuth, wall) };
  }
  const azimuths = holes.map((hole) => hole.azimuth);
  // Without a view (or with a post before it) any free place at the rim will do.
  for (let k = 0; k < 24; k++) azimuths.push((azimuths[0] ?? 0) + (Math.ceil(k / 2) * (k % 2 ? 1 : -1) * Math.PI) / 12);
  for (const azimuth of azimuths) {
    const at = atRim(region, footprint, azimuth, Infinity);
    if (at) return { at, free: [] };
  }
  return null;
}

/** How far from the wall a row must stand for a spyhole `above` its foot to show the upper half of each cone [m]. */
function viewDistance(above: number, cones: number): number {
  const aside = (conePitch * (cones - 1)) / 2;
  const up = Math.max(Math.abs(above - conePackHeight / 2), Math.abs(above - conePackHeight));
  // A spyhole shows what lies within 45 degrees of straight ahead; common practice, no source. A little to spare.
  return Math.hypot(aside, up) * 1.05;
}

/** The plan between a row of cones and the wall. */
function corridor(footprint: Footprint, at: Placement, azimuth: number, wall: number): Footprint {
  const from = at.x * Math.cos(azimuth) + at.y * Math.sin(azimuth);
  const half = footprint[0]?.halfX ?? 0;
  const length = (wall - from) / 2;
  return [
    {
      x: at.x + length * Math.cos(azimuth),
      y: at.y + length * Math.sin(azimuth),
      angle: azimuth,
      halfX: length,
      halfY: half - 0.008,
      radius: 0,
    },
  ];
}

/** A place on the ray from the region's centre, as far out as the region and `most` [m] allow; null if none is free. */
function atRim(region: Region, footprint: Footprint, azimuth: number, most: number): Placement | null {
  const angle = azimuth + Math.PI / 2;
  const inside = (distance: number): boolean => {
    const placed = placeFootprint(footprint, {
      x: region.x + distance * Math.cos(azimuth),
      y: region.y + distance * Math.sin(azimuth),
      angle,
    });
    if (!region.flats.every((flat) => extentAlong(placed, flat.nx, flat.ny) + coneAir <= flat.distance)) return false;
    return farthestFrom(placed, region.x, region.y) + coneAir <= region.radius;
  };
  // The region is convex: along a ray it holds up to one distance. The ray starts inside every bay that contains the
  // axis; other bays are entered on the way and are found by steps.
  let start = -1;
  for (let step = 0; step <= 100; step++) if (inside(step * 0.01)) start = step * 0.01;
  if (start < 0) return null;
  let low = start;
  let high = start + 0.01;
  for (let k = 0; k < 30; k++) {
    const middle = (low + high) / 2;
    if (inside(middle)) low = middle;
    else high = middle;
  }
  low = Math.min(low, most);
  if (!inside(low)) return null;
  const spot = { x: region.x + low * Math.cos(azimuth), y: region.y + low * Math.sin(azimuth), angle };
  const placed = placeFootprint(footprint, spot);
  const blocked = region.keepOuts.some((out) =>
    placed.some((box) => Math.hypot(out.x - box.x, out.y - box.y) < out.radius + out.halfX + box.halfX + coneAir),
  );
  return blocked ? null : spot;
}
