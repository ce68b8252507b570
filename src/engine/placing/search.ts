import { seededRandom, type Random } from "#base";
import { Assigner } from "./assignment.ts";
import type { ColumnProblem } from "./column.ts";
import { nothingPacked, Packer, type Packed } from "./packer.ts";
import { PostFitter } from "./post-stacks.ts";
import type { Region } from "./region.ts";
import { standUp, type Level } from "./tower.ts";

/** One layer of a solution: its level and what stands on its bays. */
export interface Layer {
  readonly level: Level;
  readonly regions: readonly Region[];
  readonly bays: readonly Packed[];
}

export interface Solution {
  /** From the bottom up. */
  readonly layers: readonly Layer[];
  readonly worth: number;
}

/** Searches for the setting of most worth. */
export class Search {
  readonly packer: Packer;
  best: Solution = { layers: [], worth: 0 };
  readonly problem: ColumnProblem;
  readonly random: Random;
  readonly fitter: PostFitter;
  readonly assigner: Assigner;
  private readonly stop: () => boolean;

  constructor(problem: ColumnProblem, seed: number, stop: () => boolean) {
    this.problem = problem;
    this.random = seededRandom(seed);
    this.packer = new Packer(problem.parts, problem.gap, problem.slack, this.random);
    this.fitter = new PostFitter(problem.posts, problem.maxStack);
    this.assigner = new Assigner(problem);
    this.stop = stop;
  }

  /** A first solution from the best heights by area. */
  construct(density: number): Solution {
    const { problem } = this;
    const pool = problem.parts.bound.length > 0 ? Array.from(problem.parts.bound, (_, item) => item) : [];
    const needs = this.chooseHeights(pool, density * problem.bayArea);
    const levels = standUp(problem, this.fitter, needs);
    if (!levels) return { layers: [], worth: 0 };
    const allowed = levels.map((level) => this.allowed(level));
    const order = this.assigner.byDensity(pool, null, 0);
    const chosen = this.assigner.whole(
      order,
      allowed,
      allowed.map(() => density * problem.bayArea),
    );
    const layers = levels.map((level, k): Layer => {
      const regions = this.regionsOf(level);
      const bays = regions.map((region, bay) => this.packMost(region, chosen[k]?.[bay] ?? []));
      return { level, regions, bays };
    });
    return this.fill(this.solution(layers), 12);
  }

  allowed(level: Level): number {
    const { headroom, lidHeadroom } = this.problem;
    return level.z1 - level.z0 - (level.top ? lidHeadroom : headroom) + 1e-9;
  }

  regionsOf(level: Level): readonly Region[] {
    return Array.from({ length: this.problem.bays }, (_, bay) =>
      this.problem.region(bay, level.z0, level.z1, level.top),
    );
  }

  solution(layers: readonly Layer[]): Solution {
    let worth = 0;
    for (const layer of layers) {
      for (const bay of layer.bays) for (const item of bay.members) worth += this.problem.worth[item];
    }
    return { layers, worth };
  }

  /** Needs of the layers, from the bottom up, of most worth by area: a climb from several starts. */
  private chooseHeights(pool: readonly number[], capacity: number): readonly number[] {
    const { problem, random, assigner } = this;
    const order = assigner.byDensity(pool, null, 0);
    const candidates = [...new Set(pool.map((item) => problem.height[item]))].sort((a, b) => a - b);
    const tallest = candidates[candidates.length - 1] ?? 0;
    const clear = problem.roof - problem.base;
    const evaluate = (needs: readonly number[]): number => {
      const levels = standUp(problem, this.fitter, needs);
      if (!levels) return -1;
      const allowed = levels.map((level) => this.allowed(level)).sort((a, b) => a - b);
      return assigner.fractional(order, allowed, capacity * problem.bays);
    };
    let best: readonly number[] = [];
    let bestWorth = -1;
    for (let layers = 1; layers <= Math.min(problem.maxLayers, 12); layers++) {
      if ((layers - 1) * (problem.thickness + problem.headroom) > clear) break;
      for (let start = 0; start < 3; start++) {
        let needs = Array.from({ length: layers }, () =>
          start === 0 ? candidates[0] : candidates[random.below(candidates.length)],
        );
        let worth = evaluate(needs);
        for (let tries = 0, idle = 0; tries < 250 && idle < 60; tries++) {
          const next = [...needs];
          const at = random.below(layers);
          next[at] = candidates[random.below(candidates.length)];
          if (random.uniform() < 0.4) next[random.below(layers)] = candidates[random.below(candidates.length)];
          const nextWorth = evaluate(next);
          if (nextWorth > worth) idle = 0;
          else idle++;
          if (nextWorth >= worth) {
            needs = next;
            worth = nextWorth;
          }
        }
        if (worth > bestWorth + 1e-9) {
          best = needs;
          bestWorth = worth;
        }
        if (this.stop()) return best.length > 0 ? best : [tallest];
      }
    }
    return best;
  }

  /** As many of the items as can be packed, the least worth per area left out first. */
  packMost(region: Region, items: readonly number[]): Packed {
    const { area, worth } = this.problem;
    const density = (item: number): number => worth[item] / area[item];
    let wanted = [...items].sort((a, b) => area[b] - area[a] || a - b);
    while (wanted.length > 0) {
      const packed = this.packer.pack(region, nothingPacked, wanted, 25);
      if (packed) return packed;
      const weakest = wanted.reduce((least, item) => (density(item) < density(least) ? item : least));
      wanted = wanted.filter((item) => item !== weakest);
    }
    return nothingPacked;
  }

  waitingOf(solution: Solution): number[] {
    const placed = new Set(solution.layers.flatMap((layer) => layer.bays.flatMap((bay) => bay.members)));
    return Array.from(this.problem.parts.bound, (_, item) => item).filter((item) => !placed.has(item));
  }

  /** Adds waiting items wherever one more can be packed, best worth per area first. */
  fill(solution: Solution, rounds: number): Solution {
    const { problem } = this;
    let layers = [...solution.layers];
    for (const item of this.assigner.byDensity(this.waitingOf(solution), null, 0)) {
      place: for (let k = 0; k < layers.length; k++) {
        const layer = layers[k];
        if (this.allowed(layer.level) < problem.height[item]) continue;
        for (let b = 0; b < layer.bays.length; b++) {
          const bay = layer.bays[b];
          if (!this.mayHold(bay, item)) continue;
          const packed = this.packer.pack(layer.regions[b], bay, [item], rounds);
          if (!packed) continue;
          layers = layers.with(k, { ...layer, bays: layer.bays.with(b, packed) });
          break place;
        }
        if (this.stop()) return this.solution(layers);
      }
    }
    return this.solution(layers);
  }

  /** By area and mass, could the bay hold one more? */
  mayHold(bay: Packed, item: number): boolean {
    const { area, mass, bayArea, shelfLoad } = this.problem;
    let filled = area[item];
    let load = mass[item];
    for (const other of bay.members) {
      filled += area[other];
      load += mass[other];
    }
    return filled < 0.93 * bayArea && load <= shelfLoad;
  }
}
