import type { Flat, RoundedBox } from "#engine/geometry";

/**
 * Where the pieces of one layer may stand, in the kiln's plan frame [m]: inside a disc (infinite radius: none) and on
 * the inner side of every flat, clear of every keep-out. Keep-outs carry their own clearance in their radius.
 */
export interface Region {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly flats: readonly Flat[];
  readonly keepOuts: readonly RoundedBox[];
}

/** Smallest box [x0, y0, x1, y1] about the region, from its disc and its flats along the axes. */
export function boxAbout(region: Region): readonly [number, number, number, number] {
  let x0 = region.x - region.radius;
  let x1 = region.x + region.radius;
  let y0 = region.y - region.radius;
  let y1 = region.y + region.radius;
  // Corners of the flats' polygon: every pair of flats that meet in a point inside all others.
  const corners: [number, number][] = [];
  for (const [i, a] of region.flats.entries()) {
    for (const b of region.flats.slice(i + 1)) {
      const det = a.nx * b.ny - a.ny * b.nx;
      if (Math.abs(det) < 1e-9) continue;
      const x = (a.distance * b.ny - b.distance * a.ny) / det;
      const y = (a.nx * b.distance - b.nx * a.distance) / det;
      if (region.flats.every((flat) => flat.nx * x + flat.ny * y <= flat.distance + 1e-9)) corners.push([x, y]);
    }
  }
  if (corners.length >= 3 && isBounded(region.flats)) {
    x0 = Math.max(x0, Math.min(...corners.map(([x]) => x)));
    x1 = Math.min(x1, Math.max(...corners.map(([x]) => x)));
    y0 = Math.max(y0, Math.min(...corners.map(([, y]) => y)));
    y1 = Math.min(y1, Math.max(...corners.map(([, y]) => y)));
  }
  return [x0, y0, x1, y1];
}

/** True when the flats alone close a polygon: no gap of half a turn or more between neighbouring normals. */
function isBounded(flats: readonly Flat[]): boolean {
  const turns = flats.map((flat) => Math.atan2(flat.ny, flat.nx)).sort((a, b) => a - b);
  return turns.every((turn, i) => {
    const next = i + 1 < turns.length ? turns[i + 1] : turns[0] + 2 * Math.PI;
    return next - turn < Math.PI - 1e-9;
  });
}
