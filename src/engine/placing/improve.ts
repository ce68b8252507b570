import type { Random } from "#base";
import { nothingPacked, type Packed } from "./packer.ts";
import type { Layer, Search, Solution } from "./search.ts";
import type { Region } from "./region.ts";
import { standUp } from "./tower.ts";

/**
 * Large-neighbourhood search: empties part of one to three layers and fills them again with what waits, sometimes at
 * other layer heights, and accepts by simulated annealing (strict acceptance stalls).
 */
export class Improver {
  current: Solution;
  readonly tally: Record<string, [number, number, number]> = {};
  private readonly search: Search;
  private readonly random: Random;
  private readonly unit: number;
  private readonly mayMoveShelves: boolean;

  constructor(search: Search, start: Solution, mayMoveShelves = true) {
    this.search = search;
    this.mayMoveShelves = mayMoveShelves;
    this.random = search.random;
    this.current = start;
    const { worth } = search.problem;
    this.unit = worth.length > 0 ? worth.reduce((sum, each) => sum + each, 0) / worth.length : 1;
  }

  /** One move at `heat` in 0..1; returns true when `search.best` was improved. */
  step(heat: number): boolean {
    const { random, search } = this;
    const pick = random.uniform();
    const kind = this.mayMoveShelves && pick < 0.25 ? "window" : pick < 0.5 ? "pair" : "hole";
    const next = kind === "window" ? this.window() : this.refill(kind === "pair" ? 2 : 1);
    const tally = (this.tally[kind] ??= [0, 0, 0]);
    tally[0]++;
    if (!next) return false;
    const gain = this.potential(next) - this.potential(this.current);
    const temperature = this.unit * (0.01 + 0.25 * heat);
    if (gain < 0 && random.uniform() >= Math.exp(gain / temperature)) return false;
    tally[1]++;
    this.current = next;
    if (next.worth <= search.best.worth + 1e-9) return false;
    tally[2]++;
    search.best = next;
    return true;
  }

  /** Worth, less a little for the area it takes: of two equal settings the one with more room left is better. */
  private potential(solution: Solution): number {
    const { problem } = this.search;
    let area = 0;
    for (const layer of solution.layers) {
      for (const bay of layer.bays) for (const item of bay.members) area += problem.area[item];
    }
    return solution.worth - (0.5 * this.unit * area) / problem.bayArea;
  }

  /** Empties a hole in each of some layers and fills them anew. */
  private refill(count: number): Solution | null {
    const { random, search } = this;
    const { layers } = this.current;
    const first = random.below(layers.length);
    const chosen = [first];
    if (count > 1) {
      const other = random.below(layers.length);
      if (other !== first) chosen.push(other);
    }
    const changed = new Map<number, { bay: number; packed: Packed }>();
    const pool = search.waitingOf(this.current);
    for (const k of chosen) {
      const layer = layers[k];
      const bay = random.below(layer.bays.length);
      const { kept, removed } = this.hole(layer.bays[bay]);
      changed.set(k, { bay, packed: kept });
      pool.push(...removed);
    }
    return this.refillWith(layers, changed, pool);
  }

  private refillWith(
    layers: readonly Layer[],
    changed: ReadonlyMap<number, { bay: number; packed: Packed }>,
    pool: readonly number[],
  ): Solution | null {
    const { random, search } = this;
    const { problem } = search;
    // Shorter layers choose first: what fits there leaves the taller ones free.
    const order = [...changed.keys()].sort((a, b) => search.allowed(layers[a].level) - search.allowed(layers[b].level));
    let left = search.assigner.byDensity(pool, random, 0.25);
    let next = [...layers];
    const target = (0.8 + 0.1 * random.uniform()) * problem.bayArea;
    const shares = order.length > 1 ? this.shares(layers, order, changed, left, target) : null;
    for (const k of order) {
      const layer = layers[k];
      const { bay, packed } = changed.get(k) as { bay: number; packed: Packed };
      const free = new Set(left);
      const wanted = shares
        ? (shares.get(k) as number[]).filter((item) => free.has(item))
        : this.wanted(layer, packed, left, target);
      const filled = this.pour(layer.regions[bay], packed, wanted, left, search.allowed(layer.level));
      const taken = new Set(filled.members);
      left = left.filter((item) => !taken.has(item));
      next = next.with(k, { ...layer, bays: layer.bays.with(bay, filled) });
    }
    return search.solution(next);
  }

  /** Items of the pool to add to a bay, by area and mass alone. */
  private wanted(layer: Layer, packed: Packed, pool: Int32Array, target: number): number[] {
    const { problem } = this.search;
    const allowed = this.search.allowed(layer.level);
    let { area, mass } = this.fillOf(packed);
    const wanted: number[] = [];
    for (const item of pool) {
      if (problem.height[item] > allowed) continue;
      if (area + problem.area[item] > target) continue;
      if (mass + problem.mass[item] > problem.shelfLoad) continue;
      area += problem.area[item];
      mass += problem.mass[item];
      wanted.push(item);
    }
    return wanted;
  }

  private shares(
    layers: readonly Layer[],
    order: readonly number[],
    changed: ReadonlyMap<number, { bay: number; packed: Packed }>,
    pool: Int32Array,
    target: number,
  ): Map<number, number[]> {
    const { problem } = this.search;
    const use = order.map((k) => this.fillOf((changed.get(k) as { packed: Packed }).packed));
    const shares = new Map<number, number[]>(order.map((k) => [k, []]));
    for (const item of pool) {
      for (const [at, k] of order.entries()) {
        const fill = use[at];
        if (problem.height[item] > this.search.allowed(layers[k].level)) continue;
        if (fill.area + problem.area[item] > target) continue;
        if (fill.mass + problem.mass[item] > problem.shelfLoad) continue;
        fill.area += problem.area[item];
        fill.mass += problem.mass[item];
        (shares.get(k) as number[]).push(item);
        break;
      }
    }
    return shares;
  }

  private fillOf(packed: Packed): { area: number; mass: number } {
    const { problem } = this.search;
    let area = 0;
    let mass = 0;
    for (const item of packed.members) {
      area += problem.area[item];
      mass += problem.mass[item];
    }
    return { area, mass };
  }

  /** Packs `wanted` into the bay, dropping the least dense until it fits; then tries a few more from the pool. */
  private pour(region: Region, base: Packed, wanted: readonly number[], pool: Int32Array, allowed: number): Packed {
    const { search, random } = this;
    const { problem, packer } = search;
    let packed = base;
    let list = [...wanted];
    const bySize = (items: readonly number[]): number[] => [...items].sort((a, b) => problem.area[b] - problem.area[a]);
    for (let tries = 0; list.length > 0 && tries < 4; tries++) {
      const found = packer.pack(region, base, bySize(list), 6);
      if (found) {
        packed = found;
        break;
      }
      // The order of `wanted` is by noisy density: its tail goes first, most often.
      const drop = list.length - 1 - Math.floor(random.uniform() ** 2 * list.length);
      list = list.filter((_, k) => k !== drop);
    }
    const inside = new Set(packed.members);
    let extra = 0;
    for (const item of pool) {
      if (extra >= 2) break;
      if (inside.has(item) || problem.height[item] > allowed || !search.mayHold(packed, item)) continue;
      extra++;
      const found = packer.pack(region, packed, [item], 4);
      if (found) packed = found;
    }
    return packed;
  }

  /** Takes out one to a few items that stand together. */
  private hole(packed: Packed): { kept: Packed; removed: number[] } {
    const { random } = this;
    const count = packed.members.length;
    if (count === 0) return { kept: packed, removed: [] };
    const centre = random.below(count);
    const cx = packed.poses[3 * centre];
    const cy = packed.poses[3 * centre + 1];
    const take = Math.min(count, random.below(5));
    const byDistance = Array.from({ length: count }, (_, m) => m)
      .map((m) => ({
        m,
        far: Math.hypot(packed.poses[3 * m] - cx, packed.poses[3 * m + 1] - cy),
      }))
      .sort((a, b) => a.far - b.far);
    const out = new Set(byDistance.slice(0, take).map(({ m }) => m));
    return without(packed, out);
  }

  /** Other heights for two or three layers, and other contents. */
  private window(): Solution | null {
    const { random, search } = this;
    const { problem, assigner } = search;
    const { layers } = this.current;
    const size = Math.min(layers.length, 1 + random.below(3));
    const picked = new Set<number>();
    while (picked.size < size) picked.add(random.below(layers.length));
    const pool = search.waitingOf(this.current);
    for (const k of picked) for (const bay of layers[k].bays) pool.push(...bay.members);
    const order = assigner.byDensity(pool, random, 0.25);
    const density = 0.78 + 0.08 * random.uniform();
    const capacity = density * problem.bayArea;
    const needs = layers.map((layer) => tallestOf(search, layer));
    const tallest = [...new Set(pool.map((item) => problem.height[item]))];
    const rest = layers.map((_, k) => k).filter((k) => !picked.has(k));
    const sizes = [size, size, size + 1, Math.max(size - 1, 1)];
    let bestNeeds: number[] | null = null;
    let bestWorth = -1;
    for (let sample = 0; sample < 40; sample++) {
      const want = sizes[random.below(sizes.length)];
      const trial = Array.from({ length: want }, (_, at) => {
        const old = [...picked][at];
        if (old !== undefined && random.uniform() < 0.4) return needs[old];
        return tallest[random.below(tallest.length)];
      });
      const all = [...rest.map((k) => needs[k]), ...trial];
      if (!this.standsIn(all)) continue;
      // The rest of the layers keep what they hold, so only the window's room counts.
      const worth = assigner.fractional(
        order,
        [...trial].sort((a, b) => a - b),
        capacity * problem.bays,
      );
      if (worth > bestWorth) {
        bestWorth = worth;
        bestNeeds = trial;
      }
    }
    if (!bestNeeds) return null;
    return this.rebuild(rest, bestNeeds, order, capacity);
  }

  /** Cheap test: do the heights add up, posts taken as continuous? */
  private standsIn(needs: readonly number[]): boolean {
    const { roof, base, thickness, headroom, lidHeadroom } = this.search.problem;
    let sum = base + lidHeadroom - headroom - thickness;
    for (const need of needs) sum += need + headroom + thickness;
    return sum <= roof && needs.length <= this.search.problem.maxLayers;
  }

  private rebuild(
    rest: readonly number[],
    needs: readonly number[],
    order: Int32Array,
    capacity: number,
  ): Solution | null {
    const { search } = this;
    const { problem, fitter, packer } = search;
    const { layers } = this.current;
    const asked: { need: number; old: Layer | null }[] = [
      ...rest.map((k) => ({ need: tallestOf(search, layers[k]), old: layers[k] })),
      ...needs.map((need) => ({ need, old: null })),
    ];
    const levels = standUp(
      problem,
      fitter,
      asked.map((each) => each.need),
    );
    if (!levels) return null;
    const next: (Layer | null)[] = [];
    const empty: number[] = [];
    for (const level of levels) {
      const { old } = asked[level.asked] as { old: Layer | null };
      const regions = search.regionsOf(level);
      if (!old) {
        empty.push(next.length);
        next.push(null);
        continue;
      }
      const bays: Packed[] = [];
      for (const [b, bay] of old.bays.entries()) {
        const same = regions[b] === old.regions[b];
        const moved = same ? bay : packer.pack(regions[b], bay, [], 10);
        if (!moved) return null;
        bays.push(moved);
      }
      next.push({ level, regions, bays });
    }
    const allowed = empty.map((k) => search.allowed(levels[k]));
    const chosen = search.assigner.whole(
      order,
      allowed,
      empty.map(() => capacity),
    );
    let left = order;
    const free = new Set(order);
    for (const [at, k] of empty.entries()) {
      const level = levels[k];
      const regions = search.regionsOf(level);
      const bays = regions.map((region, b) => {
        const wanted = (chosen[at]?.[b] ?? []).filter((item) => free.has(item));
        const packed = this.pour(region, nothingPacked, wanted, left, allowed[at]);
        const taken = new Set(packed.members);
        for (const item of taken) free.delete(item);
        left = left.filter((item) => !taken.has(item));
        return packed;
      });
      next[k] = { level, regions, bays };
    }
    return search.solution(next as Layer[]);
  }
}

export function without(packed: Packed, out: ReadonlySet<number>): { kept: Packed; removed: number[] } {
  const members: number[] = [];
  const removed: number[] = [];
  const poses = new Float64Array(3 * (packed.members.length - out.size));
  packed.members.forEach((item, m) => {
    if (out.has(m)) {
      removed.push(item);
      return;
    }
    poses.set(packed.poses.subarray(3 * m, 3 * m + 3), 3 * members.length);
    members.push(item);
  });
  return { kept: { members, poses }, removed };
}

/** Height of the tallest item of a layer [m]. */
export function tallestOf(search: Search, layer: Layer): number {
  let tallest = 0;
  for (const bay of layer.bays) {
    for (const item of bay.members) tallest = Math.max(tallest, search.problem.height[item]);
  }
  return tallest;
}
