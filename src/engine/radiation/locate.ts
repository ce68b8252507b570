import { solidKind, solidStride } from "#engine/geometry";
import { gridKind, type Grid, type Scene } from "./scene.ts";
import { gauge, sectorAt } from "./star.ts";

/**
 * Tells which patch was hit: its index where a ray meets the front, ~index where it meets the back (the ray started
 * inside something solid).
 *
 * @param solid index of the solid hit, then the point on it [m] and the ray's direction
 */
export type Locator = (solid: number, x: number, y: number, z: number, dx: number, dy: number, dz: number) => number;

export function locator(scene: Scene): Locator {
  const { kind, data } = scene.solids;
  const { grids } = scene;
  return (solid, x, y, z, dx, dy, dz) => {
    const o = solid * solidStride;
    const grid = grids[solid];
    let facing: number;
    let cell = 0;
    switch (kind[solid]) {
      case solidKind.band: {
        const px = x - data[o];
        const py = y - data[o + 1];
        const slope = data[o + 4];
        facing = (px * dx + py * dy - slope * Math.hypot(px, py) * dz) * data[o + 7];
        if (grid.kind === gridKind.band) cell = bandCell(grid, px, py, z);
        break;
      }
      case solidKind.plate: {
        facing = dz * data[o + 8];
        if (grid.kind === gridKind.band) cell = bandCell(grid, x - data[o], y - data[o + 1], z);
        else if (grid.kind === gridKind.star) cell = starCell(grid, x, y);
        break;
      }
      case solidKind.panel: {
        facing = dx * data[o + 7] + dy * data[o + 8];
        if (grid.kind === gridKind.panel) {
          const along = (x - data[o]) * data[o + 2] + (y - data[o + 1]) * data[o + 3];
          cell = intervalOf(grid.cuts, z) * grid.sectors + intervalOf(grid.across, along);
        }
        break;
      }
      default: {
        const px = x - data[o];
        const py = y - data[o + 1];
        const cos = data[o + 2];
        const sin = data[o + 3];
        const lx = cos * px + sin * py;
        const ly = cos * py - sin * px;
        const middle = (data[o + 6] + data[o + 7]) / 2;
        const lz = z - middle;
        const outX = Math.abs(lx) - data[o + 4];
        const outY = Math.abs(ly) - data[o + 5];
        const outZ = Math.abs(lz) - (data[o + 7] - middle);
        if (outX >= outY && outX >= outZ) {
          cell = lx > 0 ? 0 : 1;
          facing = (cos * dx + sin * dy) * lx;
        } else if (outY >= outZ) {
          cell = ly > 0 ? 2 : 3;
          facing = (cos * dy - sin * dx) * ly;
        } else {
          cell = lz > 0 ? 4 : 5;
          facing = dz * lz;
        }
      }
    }
    const patch = grid.patches[cell];
    // A face without a patch counts as a back: nothing is known about what arrives there.
    return facing < 0 ? patch : patch < 0 ? patch : ~patch;
  };
}

function intervalOf(cuts: Float64Array, value: number): number {
  const last = cuts.length - 2;
  let i = 0;
  while (i < last && value >= cuts[i + 1]) i++;
  return i;
}

function bandCell(grid: Grid, px: number, py: number, z: number): number {
  const row = grid.cuts.length > 2 ? intervalOf(grid.cuts, z) : 0;
  if (grid.sectors === 1) return row;
  let turn = (Math.atan2(py, px) - grid.start) / (2 * Math.PI);
  turn -= Math.floor(turn);
  const sector = Math.floor(turn * grid.sectors);
  return row * grid.sectors + (sector < grid.sectors ? sector : 0);
}

function starCell(grid: Grid, x: number, y: number): number {
  const placed = grid.star as NonNullable<Grid["star"]>;
  const px = x - placed.x;
  const py = y - placed.y;
  const lx = placed.cos * px + placed.sin * py;
  const ly = placed.cos * py - placed.sin * px;
  const ring = intervalOf(grid.cuts, gauge(placed.star.shape, lx, ly));
  return ring * grid.sectors + sectorAt(placed.star, lx, ly);
}
