import type { Random } from "#base";
import type { ColumnProblem } from "./column.ts";

/** Which layer heights and which items in which layer, with area as the only measure of room. */
export class Assigner {
  private readonly problem: ColumnProblem;
  private readonly room: Float64Array;

  constructor(problem: ColumnProblem) {
    this.problem = problem;
    this.room = new Float64Array(64);
  }

  /** The items by worth per area, best first. `noise` shakes the order. */
  byDensity(pool: readonly number[], random: Random | null, noise: number): Int32Array {
    const { worth, area } = this.problem;
    const key = new Float64Array(this.problem.parts.count);
    for (const item of pool) {
      const shake = random ? Math.exp(noise * random.normal()) : 1;
      key[item] = (worth[item] / area[item]) * shake;
    }
    return Int32Array.from(pool).sort((a, b) => key[b] - key[a] || a - b);
  }

  /**
   * Most worth that fits by area alone when items may be cut: exact, because the layers an item may use form a chain.
   *
   * @param order    items by worth per area, best first
   * @param allowed  tallest item of each layer [m], ascending
   * @param capacity usable area of one layer [m2]
   */
  fractional(order: Int32Array, allowed: readonly number[], capacity: number): number {
    const { worth, area, height } = this.problem;
    const { room } = this;
    const layers = allowed.length;
    // room[c]: area still free for items that need layer c or a taller one.
    for (let c = 0; c < layers; c++) room[c] = (layers - c) * capacity;
    let total = 0;
    for (let k = 0; k < order.length; k++) {
      const item = order[k];
      const tall = height[item];
      let c = 0;
      while (c < layers && allowed[c] < tall) c++;
      if (c === layers) continue;
      let free = Infinity;
      for (let d = 0; d <= c; d++) free = Math.min(free, room[d]);
      if (free <= 0) continue;
      const wanted = area[item];
      const taken = Math.min(free, wanted);
      for (let d = 0; d <= c; d++) room[d] = room[d] - taken;
      total += (worth[item] * taken) / wanted;
    }
    return total;
  }

  /**
   * Whole items to bays: in the given order, each into the lowest layer that is tall enough and has room, there into
   * the emptiest bay. `capacity[layer]` is the usable area of one of its bays [m2].
   */
  whole(
    order: Int32Array,
    allowed: readonly number[],
    capacity: readonly number[],
    taken?: readonly { readonly area: number; readonly mass: number }[][],
  ): number[][][] {
    const { worth: _, area, height, mass, bays, shelfLoad } = this.problem;
    const layers = allowed.map((_, layer) => layer).sort((a, b) => allowed[a] - allowed[b]);
    const used = allowed.map((_, layer) =>
      Array.from({ length: bays }, (_, bay) => ({ ...(taken?.[layer]?.[bay] ?? { area: 0, mass: 0 }) })),
    );
    const chosen: number[][][] = allowed.map(() => Array.from({ length: bays }, () => []));
    for (const item of order) {
      place: for (const layer of layers) {
        if (allowed[layer] < height[item]) continue;
        const byRoom = (used[layer] as { area: number; mass: number }[])
          .map((use, bay) => ({ use, bay }))
          .sort((a, b) => a.use.area - b.use.area || a.bay - b.bay);
        for (const { use, bay } of byRoom) {
          if (use.area + area[item] > capacity[layer]) continue;
          if (use.mass + mass[item] > shelfLoad) continue;
          use.area += area[item];
          use.mass += mass[item];
          chosen[layer]?.[bay]?.push(item);
          break place;
        }
      }
    }
    return chosen;
  }
}
