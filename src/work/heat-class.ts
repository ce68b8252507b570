import type { FiringClass } from "#engine/kiln";

/**
 * How far a piece lands from what its class wants, in seven steps from over one cone cold to over one cone hot.
 * Screens and sheets give each its fill, hatch and mark; the edges lie at a quarter, a half and one cone.
 */
export type HeatClass = "cold3" | "cold2" | "cold1" | "wanted" | "hot1" | "hot2" | "hot3";

/** From coldest to hottest, the order of every key. */
export const heatClasses: readonly HeatClass[] = ["cold3", "cold2", "cold1", "wanted", "hot1", "hot2", "hot3"];

/** Largest distance from the wanted cone that still belongs to a step [cones]; each edge belongs to the milder step. */
const edges = [0.25, 0.5, 1] as const;

/**
 * The step of an offset.
 *
 * @param offset heatwork minus wanted heatwork [cones]: below 0 is cold
 * @throws RangeError if it is not finite
 */
export function heatClassOf(offset: number): HeatClass {
  if (!Number.isFinite(offset)) throw new RangeError(`offset must be a finite number of cones, got ${offset}`);
  const distance = Math.abs(offset);
  const step = edges.filter((edge) => distance > edge).length;
  if (step === 0) return "wanted";
  return `${offset < 0 ? "cold" : "hot"}${step as 1 | 2 | 3}`;
}

/** On which side an offset leaves its class's wanted range, or null inside it. With the usual range of half a cone it agrees with the steps' edges. */
export function outsideRange(offset: number, tolerance: FiringClass["tolerance"]): "cold" | "hot" | null {
  if (offset < tolerance.colder) return "cold";
  if (offset > tolerance.hotter) return "hot";
  return null;
}

/** True when a piece may as well come out wanted as not: 3 to 7 chances in 10. Drawn with a dashed edge. */
export function couldGoEitherWay(chanceWanted: number): boolean {
  return chanceWanted >= 0.3 && chanceWanted <= 0.7;
}
