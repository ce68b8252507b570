import { extentAlong, placeFootprint, type Footprint, type Placement } from "#engine/geometry";
import { conePackFootprint, type Kiln } from "#engine/kiln";
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

/** Where a row of cones stands on a region: at the rim below the spyhole nearest in height, its side to the spyhole. */
export function coneSpot(kiln: Kiln, region: Region, cones: number, z: number): Placement | null {
  const footprint = conePackFootprint(cones);
  const holes = [...kiln.spyholes].sort((a, b) => Math.abs(a.z - z) - Math.abs(b.z - z));
  const azimuths = holes.map((hole) => hole.azimuth);
  // Without a spyhole (or with a post before it) any free place at the rim will do.
  for (let k = 0; k < 24; k++) azimuths.push((azimuths[0] ?? 0) + (Math.ceil(k / 2) * (k % 2 ? 1 : -1) * Math.PI) / 12);
  for (const azimuth of azimuths) {
    const spot = atRim(region, footprint, azimuth);
    if (spot) return spot;
  }
  return null;
}

function atRim(region: Region, footprint: Footprint, azimuth: number): Placement | null {
  const angle = azimuth + Math.PI / 2;
  let low = 0;
  let high = 2;
  const inside = (distance: number): boolean => {
    const placed = placeFootprint(footprint, {
      x: region.x + distance * Math.cos(azimuth),
      y: region.y + distance * Math.sin(azimuth),
      angle,
    });
    if (!region.flats.every((flat) => extentAlong(placed, flat.nx, flat.ny) + coneAir <= flat.distance)) return false;
    return placed.every((box) => {
      const cos = Math.cos(box.angle);
      const sin = Math.sin(box.angle);
      return [1, -1].every((sx) =>
        [1, -1].every((sy) => {
          const x = box.x + cos * sx * box.halfX - sin * sy * box.halfY - region.x;
          const y = box.y + sin * sx * box.halfX + cos * sy * box.halfY - region.y;
          return Math.hypot(x, y) + coneAir <= region.radius;
        }),
      );
    });
  };
  // The region is convex: along a ray it holds up to one distance. The ray starts inside every bay that contains the
  // axis; other bays are entered on the way and are found by steps.
  let start = -1;
  for (let step = 0; step <= 100; step++) if (inside(step * 0.01)) start = step * 0.01;
  if (start < 0) return null;
  low = start;
  high = start + 0.01;
  for (let k = 0; k < 30; k++) {
    const middle = (low + high) / 2;
    if (inside(middle)) low = middle;
    else high = middle;
  }
  const spot = { x: region.x + low * Math.cos(azimuth), y: region.y + low * Math.sin(azimuth), angle };
  const placed = placeFootprint(footprint, spot);
  const blocked = region.keepOuts.some((out) =>
    placed.some((box) => Math.hypot(out.x - box.x, out.y - box.y) < out.radius + out.halfX + box.halfX + coneAir),
  );
  return blocked ? null : spot;
}
