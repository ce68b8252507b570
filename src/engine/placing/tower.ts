import type { ColumnProblem } from "./column.ts";
import type { PostFitter, Stack } from "./post-stacks.ts";

/** Where one layer stands: z0 on its shelf to z1 under the next shelf or lid; `order` names the layer asked for. */
export interface Level {
  readonly asked: number;
  readonly z0: number;
  readonly z1: number;
  /** Under the lid. */
  readonly top: boolean;
  /** Posts that carry the next shelf; null for the top layer. */
  readonly stack: Stack | null;
}

/**
 * Stands layers on one another: posts for each but the top one, shelves clear of the closed heights, the top layer
 * tall enough. Keeps the order asked for where it can, else tries others; null if none was found.
 *
 * @param needs  tallest item of each layer [m], from the bottom up
 */
export function standUp(problem: ColumnProblem, fitter: PostFitter, needs: readonly number[]): readonly Level[] | null {
  if (needs.length > problem.maxLayers) return null;
  const asked = needs.map((_, layer) => layer);
  if (problem.closed.length === 0) return inOrder(problem, fitter, needs, asked);
  let best: readonly Level[] | null = null;
  let bestRoom = -Infinity;
  for (const order of ordersOf(asked)) {
    const levels = inOrder(problem, fitter, needs, order);
    if (!levels) continue;
    const top = levels[levels.length - 1];
    const room = top.z1 - top.z0 - needs[top.asked];
    if (room > bestRoom + 1e-9) {
      best = levels;
      bestRoom = room;
    }
    // The order asked for is taken at once when nothing had to be raised for a sensor.
    if (order === asked && room >= spareOf(problem, needs) - 0.03) break;
  }
  return best;
}

/** Free height under the lid if posts came in every length and no height were closed [m]. */
function spareOf(problem: ColumnProblem, needs: readonly number[]): number {
  const stacked = needs.reduce((sum, need) => sum + need, 0);
  return problem.roof - problem.base - stacked - (needs.length - 1) * (problem.thickness + problem.headroom);
}

/** The order asked for, then every exchange of two layers, then a few rotations: few, and enough to dodge a sensor. */
function* ordersOf(asked: readonly number[]): Generator<readonly number[]> {
  yield asked;
  for (let i = 0; i < asked.length; i++) {
    for (let j = i + 1; j < asked.length; j++) {
      const order = [...asked];
      [order[i], order[j]] = [order[j], order[i]];
      yield order;
    }
  }
  for (let shift = 1; shift < asked.length; shift++) yield [...asked.slice(shift), ...asked.slice(0, shift)];
}

/**
 * The same with the layers in one order, from the bottom up; null if they do not fit.
 *
 * @param extra  more height than a layer needs [m], by layer; the top layer gets what is left in any case
 */
export function inOrder(
  problem: ColumnProblem,
  fitter: PostFitter,
  needs: readonly number[],
  order: readonly number[],
  extra?: readonly number[],
): readonly Level[] | null {
  const { base, roof, thickness, headroom, lidHeadroom, closed } = problem;
  const required = order.slice(0, -1).map((layer) => needs[layer] + headroom + (extra?.[layer] ?? 0));
  const topNeed = needs[order[order.length - 1]] + lidHeadroom;
  const budget = roof - base - topNeed - required.length * thickness;
  // A shelf in a closed height is lifted above it by longer posts below; the posts chosen may then differ, so repeat.
  for (let tries = 0; tries <= 2 * order.length; tries++) {
    const stacks = fitter.fit(required, budget);
    if (!stacks) return null;
    const levels: Level[] = [];
    let z = base;
    let lifted = false;
    for (let k = 0; k < required.length; k++) {
      const under = z + stacks[k].height;
      const bar = closed.find(([low, high]) => under < high - 1e-9 && under + thickness > low + 1e-9);
      if (bar) {
        required[k] = bar[1] - z;
        lifted = true;
        break;
      }
      levels.push({ asked: order[k], z0: z, z1: under, top: false, stack: stacks[k] });
      z = under + thickness;
    }
    if (lifted) continue;
    levels.push({ asked: order[order.length - 1], z0: z, z1: roof, top: true, stack: null });
    return levels;
  }
  return null;
}
