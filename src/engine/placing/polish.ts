import type { Packed } from "./packer.ts";
import type { Region } from "./region.ts";
import type { Layer, Search, Solution } from "./search.ts";

/**
 * The same pieces on the same shelves: tall ones nearer the axis, then all farther apart. Nothing is lost; a change
 * that would break a rule is not made.
 */
export function polish(search: Search, solution: Solution): Solution {
  return {
    ...solution,
    layers: solution.layers.map((layer) =>
      withBays(layer, (bay, region) => loosened(search, tallInward(search, bay, region), region)),
    ),
  };
}

function withBays(layer: Layer, change: (bay: Packed, region: Region) => Packed): Layer {
  return { ...layer, bays: layer.bays.map((bay, b) => change(bay, layer.regions[b])) };
}

/** Farthest that pieces are moved apart beyond the gap [m]. */
const mostAir = 0.03;

function loosened(search: Search, bay: Packed, region: Region): Packed {
  return bay.members.length > 0 ? search.packer.spread(region, bay, mostAir) : bay;
}

/** Heights and distances from the axis must differ by this for an exchange to be worth it [m]. */
const tellingHeight = 0.004;
const tellingRadius = 0.008;

/** Exchanges the places of a tall outer and a low inner piece as long as the bay can still be packed. */
function tallInward(search: Search, bay: Packed, region: Region): Packed {
  const { problem, packer, random } = search;
  let now = bay;
  const count = bay.members.length;
  for (let tries = 0; tries < 4 * count; tries++) {
    const a = random.below(count);
    const b = random.below(count);
    const height = (m: number): number => problem.height[now.members[m]];
    const far = (m: number): number => Math.hypot(now.poses[3 * m], now.poses[3 * m + 1]);
    if (height(a) < height(b) + tellingHeight || far(a) < far(b) + tellingRadius) continue;
    const poses = now.poses.slice();
    for (let k = 0; k < 2; k++) {
      poses[3 * a + k] = now.poses[3 * b + k];
      poses[3 * b + k] = now.poses[3 * a + k];
    }
    const swapped = packer.pack(region, { members: now.members, poses }, [], 0);
    if (swapped && heightTimesRadius(problem.height, swapped) < heightTimesRadius(problem.height, now)) now = swapped;
  }
  return now;
}

function heightTimesRadius(height: Float64Array, { members, poses }: Packed): number {
  return members.reduce((sum, item, m) => sum + height[item] * Math.hypot(poses[3 * m], poses[3 * m + 1]), 0);
}
