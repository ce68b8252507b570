import type { ColumnProblem } from "./column.ts";
import type { Level } from "./tower.ts";

/** What one layer carries, for judging evenness without knowing where it stands. */
export interface Burden {
  /** Ware on all its bays [kg]. */
  readonly mass: number;
  /** Fullest bay: gap-grown area of its pieces over its own area [-]. */
  readonly fill: number;
  /** Tallest piece [m]. */
  readonly tallest: number;
}

/** What one part of unevenness weighs against another: estimates from the project's thermal prototype, ours. */
const weight = {
  /** Per unit of root-mean-square distance between the mass's height distribution and an even one. */
  mass: 1,
  /** Per unit of mean fill squared: tight layers lag most. */
  tightness: 0.3,
  /** Per shelf beyond the first: its mass must be heated too. */
  shelf: 0.012,
};

/**
 * How uneven a setting is expected to fire [-]: smaller is better; only differences mean anything.
 *
 * Mass of shelves and ware by height against an even spread over the chamber, tightly filled layers, number of
 * shelves, and the advice of the kiln (gaps, cones). A stand-in for the thermal forecast, which judges finalists.
 *
 * @param burdens  per level, from the bottom up
 */
export function unevenness(problem: ColumnProblem, levels: readonly Level[], burdens: readonly Burden[]): number {
  const { roof, thickness, shelfMass } = problem;
  const bodies: { mass: number; low: number; high: number }[] = [];
  let tight = 0;
  let filled = 0;
  levels.forEach((level, k) => {
    const burden = burdens[k];
    // A shelf cools half of the layer below it and half of the one above.
    const below = k > 0 ? (levels[k - 1].z0 + levels[k - 1].z1) / 2 : level.z0 - thickness;
    bodies.push({ mass: shelfMass, low: below, high: (level.z0 + level.z1) / 2 });
    bodies.push({ mass: burden.mass, low: level.z0, high: level.z0 + Math.max(burden.tallest, 0.01) });
    tight += burden.fill ** 3;
    filled += burden.fill;
  });
  return (
    weight.mass * massDeviation(bodies, roof) +
    (filled > 0 ? (weight.tightness * tight) / filled : 0) +
    weight.shelf * (levels.length - 1) +
    problem.advice(levels)
  );
}

/** Root-mean-square distance between the cumulative mass by height and the straight line of an even load [-]. */
export function massDeviation(
  bodies: readonly { readonly mass: number; readonly low: number; readonly high: number }[],
  roof: number,
): number {
  const total = bodies.reduce((sum, body) => sum + body.mass, 0);
  if (total === 0) return 0;
  const steps = 24;
  let square = 0;
  for (let k = 1; k < steps; k++) {
    const z = (roof * k) / steps;
    let below = 0;
    for (const { mass, low, high } of bodies) {
      if (z >= high) below += mass;
      else if (z > low) below += (mass * (z - low)) / (high - low);
    }
    square += (below / total - k / steps) ** 2;
  }
  return Math.sqrt(square / (steps - 1));
}
