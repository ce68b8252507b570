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
    centres: radii.map((_, i) => [(search.best[2 * i] as number) * mean, (search.best[2 * i + 1] as number) * mean]),
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
      const far = (outer - (radii[i] as number)) * Math.sqrt(random.uniform());
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
          for (let k = 0; k < 2 * count; k++) slope[k] = (slope[k] as number) * stiffness;
          slope[2 * count] = (slope[2 * count] as number) * stiffness + 1;
          return stiffness * value + (at[2 * count] as number);
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
        const distance = Math.hypot(
          (point[2 * i] as number) - (point[2 * j] as number),
          (point[2 * i + 1] as number) - (point[2 * j + 1] as number),
        );
        stretch = Math.max(stretch, ((radii[i] as number) + (radii[j] as number)) / distance);
      }
    }
    stretch *= 1 + 1e-15;
    let outer = 0;
    for (let i = 0; i < count; i++) {
      const far = stretch * Math.hypot(point[2 * i] as number, point[2 * i + 1] as number);
      outer = Math.max(outer, far + (radii[i] as number));
    }
    if (outer < this.bestRadius) {
      this.bestRadius = outer;
      for (let k = 0; k < 2 * count; k++) this.best[k] = stretch * (point[k] as number);
    }
    point[2 * count] = outer;
  }

  /** Threshold accepting at a container slightly smaller than this start's best, until it stalls. */
  private climb(stop: () => boolean, tell: () => void): void {
    const { radii, random, point, kept } = this;
    const count = radii.length;
    const patience = 60 + 12 * count;
    let outer = point[2 * count] as number;
    let target = outer * (1 - 2e-3);
    point[2 * count] = target;
    let value = this.settle(150);
    for (let idle = 0; idle < patience && !stop(); idle++) {
      if (idle % 16 === 0) tell();
      kept.set(point);
      this.disturb();
      point[2 * count] = target;
      const next = this.settle(150);
      if (next < 1e-9 || next < 0.5 * value) {
        // Perhaps the arrangement is good for a smaller container.
        this.kept.set(point);
        this.shrink();
        const reached = point[2 * count] as number;
        if (reached < outer * (1 - 1e-9)) {
          outer = reached;
          target = outer * (1 - 2e-3);
          idle = 0;
        } else {
          point.set(kept);
        }
        point[2 * count] = target;
        value = this.settle(150);
        continue;
      }
      const threshold = value * (1 + 0.15 * random.uniform() ** 3);
      if (next < threshold) value = next;
      else point.set(kept);
    }
  }

  private disturb(): void {
    const { random, point, radii } = this;
    const count = radii.length;
    const pick = random.uniform();
    if (!this.equal && pick < 0.45) {
      this.swap();
    } else if (pick < 0.85) {
      this.relocate();
    } else {
      const size = 0.1 + 0.7 * random.uniform();
      for (let k = 0; k < 2 * count; k++) point[k] = (point[k] as number) + size * (random.uniform() - 0.5);
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
      const off = Math.abs((radii[i] as number) - (radii[j] as number));
      if (off > 0 && off < bestOff) {
        best = j;
        bestOff = off;
      }
    }
    if (best < 0) return;
    for (let k = 0; k < 2; k++) {
      const held = point[2 * i + k] as number;
      point[2 * i + k] = point[2 * best + k] as number;
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
      if ((energy.pain[other] as number) > (energy.pain[moving] as number)) moving = other;
    }
    const outer = point[2 * count] as number;
    const own = radii[moving] as number;
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
        const apart = Math.hypot((point[2 * j] as number) - x, (point[2 * j + 1] as number) - y);
        room = Math.min(room, apart - (radii[j] as number));
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
