import { requirePositive, requireThat, seededRandom, type Random, type RunControl } from "#base";
import { CirclesEnergy } from "./circles-energy.ts";
import { Minimiser } from "./minimise.ts";
import type { SearchBudget } from "./solve-column.ts";

/** Discs in a round container: its radius, and the centre of each disc in the order given. */
export interface CirclePacking {
  readonly radius: number;
  readonly centres: readonly (readonly [number, number])[];
}

/**
 * Packs discs into a small round container about the origin; any unit of length.
 *
 * Overlap energy lowered by L-BFGS in a container a little too small; the discs that suffer most are moved to
 * vacancies, discs of near size swapped, and all shaken (threshold accepting). When the energy vanishes the container
 * is shrunk as far as the arrangement allows. New starts when that stalls. Deterministic for one seed and step budget.
 *
 * @param radii  one per disc, finite and > 0
 * @throws RangeError naming the disc if a radius is out of range
 *
 * Accuracy: the answer is feasible to rounding: distances are at least the sums of radii.
 */
export function packCircles(
  radii: readonly number[],
  budget: SearchBudget,
  seed: number,
  control: RunControl,
): CirclePacking {
  requireThat(radii.length > 0, "radii", "empty", "at least one disc");
  radii.forEach((radius, k) => requirePositive(radius, `radii[${k}]`, "in any unit of length"));
  const mean = radii.reduce((sum, radius) => sum + radius, 0) / radii.length;
  const search = new CircleSearch(
    Float64Array.from(radii, (radius) => radius / mean),
    seededRandom(seed),
  );
  const started = control.elapsed();
  const spent = (): number => Math.max((control.elapsed() - started) / budget.seconds, search.work / budget.steps);
  search.run(
    () => control.cancelled() || spent() >= 1,
    () => control.progress(Math.min(spent(), 1), "packing circles"),
  );
  return {
    radius: search.bestRadius * mean,
    centres: radii.map((_, i) => [search.best[2 * i] * mean, search.best[2 * i + 1] * mean]),
  };
}

/** Lengths in mean radii. */
class CircleSearch {
  best: Float64Array;
  bestRadius: number;
  private readonly radii: Float64Array;
  private readonly random: Random;
  private readonly energy: CirclesEnergy;
  private readonly minimiser: Minimiser;
  private readonly point: Float64Array;
  private readonly kept: Float64Array;
  private readonly gradient: Float64Array;
  private readonly equal: boolean;

  constructor(radii: Float64Array, random: Random) {
    const count = radii.length;
    this.radii = radii;
    this.random = random;
    this.energy = new CirclesEnergy(radii);
    this.minimiser = new Minimiser(2 * count + 1);
    this.point = new Float64Array(2 * count + 1);
    this.kept = new Float64Array(2 * count + 1);
    this.gradient = new Float64Array(2 * count + 1);
    this.equal = radii.every((radius) => Math.abs(radius - 1) < 1e-9);
    // A row of all discs is always feasible: there is an answer before the first step.
    this.best = new Float64Array(2 * count);
    const length = radii.reduce((sum, radius) => sum + radius, 0);
    let at = -length;
    radii.forEach((radius, i) => {
      this.best[2 * i] = at + radius;
      at += 2 * radius;
    });
    this.bestRadius = length;
  }

  get work(): number {
    return this.energy.work;
  }

  run(stop: () => boolean, tell: () => void): void {
    const count = this.radii.length;
    if (count === 1) return;
    while (!stop()) {
      this.scatter();
      this.shrink();
      this.climb(stop, tell);
    }
  }

  /** Random centres in a container of the density of good packings. */
  private scatter(): void {
    const { radii, random, point } = this;
    const count = radii.length;
    const area = radii.reduce((sum, radius) => sum + radius * radius, 0);
    const outer = Math.max(Math.sqrt(area / 0.8), Math.max(...radii));
    for (let i = 0; i < count; i++) {
      const far = (outer - radii[i]) * Math.sqrt(random.uniform());
      const turn = 2 * Math.PI * random.uniform();
      point[2 * i] = far * Math.cos(turn);
      point[2 * i + 1] = far * Math.sin(turn);
    }
    point[2 * count] = outer;
    this.settle(200);
  }

  /** Lowers the energy in the container as it is; returns it. */
  private settle(iterations: number): number {
    const { energy, minimiser, point, gradient } = this;
    const count = this.radii.length;
    minimiser.minimise(
      (at, slope) => energy.evaluate(at, slope),
      point,
      2 * count,
      iterations,
      0.1,
      (value) => value < 1e-22,
      0.02,
    );
    return energy.evaluate(point, gradient);
  }

  /** Shrinks the container about the arrangement: minimises R + stiffness x energy with growing stiffness. */
  private shrink(): void {
    const { energy, minimiser, point } = this;
    const count = this.radii.length;
    for (let stiffness = 10; stiffness < 1e12; stiffness *= 30) {
      minimiser.minimise(
        (at, slope) => {
          const value = energy.evaluate(at, slope);
          for (let k = 0; k < 2 * count; k++) slope[k] = slope[k] * stiffness;
          slope[2 * count] = slope[2 * count] * stiffness + 1;
          return stiffness * value + at[2 * count];
        },
        point,
        2 * count + 1,
        stiffness < 1e4 ? 60 : 120,
        0.01,
        () => false,
        1e-13,
      );
    }
    this.record();
  }

  /** Keeps the arrangement if, stretched until nothing overlaps, it needs the smallest container so far. */
  private record(): void {
    const { radii, point } = this;
    const count = radii.length;
    let stretch = 0;
    for (let i = 0; i < count; i++) {
      for (let j = i + 1; j < count; j++) {
        const distance = Math.hypot(point[2 * i] - point[2 * j], point[2 * i + 1] - point[2 * j + 1]);
        stretch = Math.max(stretch, (radii[i] + radii[j]) / distance);
      }
    }
    stretch *= 1 + 1e-15;
    let outer = 0;
    for (let i = 0; i < count; i++) {
      const far = stretch * Math.hypot(point[2 * i], point[2 * i + 1]);
      outer = Math.max(outer, far + radii[i]);
    }
    if (outer < this.bestRadius) {
      this.bestRadius = outer;
      for (let k = 0; k < 2 * count; k++) this.best[k] = stretch * point[k];
    }
    point[2 * count] = outer;
  }

  /** Threshold accepting in a container clearly too small for this start's best, until it stalls. */
  private climb(stop: () => boolean, tell: () => void): void {
    const { radii, random, point, kept } = this;
    const count = radii.length;
    const patience = 40 + 10 * count;
    const squeeze = 0.99;
    let outer = point[2 * count];
    point[2 * count] = outer * squeeze;
    let value = this.settle(150);
    let least = value;
    for (let idle = 0; idle < patience && !stop(); idle++) {
      if (idle % 16 === 0) tell();
      kept.set(point);
      this.disturb();
      const next = this.settle(150);
      if (next >= value * (1 + 0.04 * random.uniform() ** 4)) {
        point.set(kept);
        continue;
      }
      value = next;
      if (next >= least * (1 - 1e-6)) continue;
      least = next;
      idle = 0;
      // Less energy in the same container: probably good for a smaller one.
      kept.set(point);
      const target = point[2 * count];
      this.shrink();
      const reached = point[2 * count];
      point.set(kept);
      if (reached < outer * (1 - 1e-9)) {
        outer = reached;
        point[2 * count] = outer * squeeze;
        value = this.settle(150);
        least = value;
      } else {
        point[2 * count] = target;
      }
    }
  }

  private disturb(): void {
    const { random, point, radii } = this;
    const count = radii.length;
    const pick = random.uniform();
    if (!this.equal && pick < 0.45) {
      this.swap();
      return;
    }
    if (pick < 0.8) {
      this.relocate();
      return;
    }
    // Shakes a neighbourhood.
    const centre = random.below(count);
    const x = point[2 * centre];
    const y = point[2 * centre + 1];
    const reach = 2 + 3 * random.uniform();
    const size = 0.4 + 1.2 * random.uniform();
    for (let i = 0; i < count; i++) {
      if (Math.hypot(point[2 * i] - x, point[2 * i + 1] - y) > reach) continue;
      point[2 * i] = point[2 * i] + size * (random.uniform() - 0.5);
      point[2 * i + 1] = point[2 * i + 1] + size * (random.uniform() - 0.5);
    }
  }

  /** Swaps two discs of neighbouring sizes. */
  private swap(): void {
    const { random, point, radii } = this;
    const count = radii.length;
    const i = random.below(count);
    let best = -1;
    let bestOff = Infinity;
    const skip = 1 + random.below(3);
    for (let tries = 0; tries < 4 + 4 * skip; tries++) {
      const j = random.below(count);
      const off = Math.abs(radii[i] - radii[j]);
      if (off > 0 && off < bestOff) {
        best = j;
        bestOff = off;
      }
    }
    if (best < 0) return;
    for (let k = 0; k < 2; k++) {
      const held = point[2 * i + k];
      point[2 * i + k] = point[2 * best + k];
      point[2 * best + k] = held;
    }
  }

  /** Moves a disc, most often one that suffers, to the widest of some random vacancies. */
  private relocate(): void {
    const { random, point, radii, energy } = this;
    const count = radii.length;
    let moving = random.below(count);
    for (let tries = 0; tries < 3; tries++) {
      const other = random.below(count);
      if (energy.pain[other] > energy.pain[moving]) moving = other;
    }
    const outer = point[2 * count];
    const own = radii[moving];
    let bestX = 0;
    let bestY = 0;
    let bestRoom = -Infinity;
    for (let sample = 0; sample < 30; sample++) {
      const far = Math.max(outer - own, 0) * Math.sqrt(random.uniform());
      const turn = 2 * Math.PI * random.uniform();
      const x = far * Math.cos(turn);
      const y = far * Math.sin(turn);
      let room = outer - far;
      for (let j = 0; j < count && room > bestRoom; j++) {
        if (j === moving) continue;
        const apart = Math.hypot(point[2 * j] - x, point[2 * j + 1] - y);
        room = Math.min(room, apart - radii[j]);
      }
      if (room > bestRoom) {
        bestRoom = room;
        bestX = x;
        bestY = y;
      }
    }
    point[2 * moving] = bestX;
    point[2 * moving + 1] = bestY;
  }
}
