import { requireThat } from "#base";
import type { Kelvin, Seconds } from "#engine/units";
import { conePositionOf, coneNames, type ConePosition } from "./cones.ts";
import { scaleKinetics } from "./cone-table.ts";
import { heatworkRate, rampRateEndingAt, type Kinetics } from "./kinetics.ts";

/** Places of the scale's cones, in the order of `coneNames`. */
export const scalePositions: readonly ConePosition[] = coneNames.map(conePositionOf);

/** Positions are reported no further than this beyond the scale's ends [cones]. */
const beyond = 1;
/** Below this, only the change of temperature within a step matters, and its middle stands for all of it [K]. */
const flat = 0.01;

/**
 * Heat work done on one cone by a temperature history [-]: 1 at the end point.
 *
 * The history is taken as straight between its points, cooling included, and integrated exactly, so that points may
 * be far apart.
 *
 * @param times         [s], never falling
 * @param temperatures  [K], > 0, same length
 * @throws RangeError naming the first point that is out of range
 *
 * Accuracy: relative error below 1e-6 of the integral of the polyline (position.test.ts).
 */
export function heatworkOf(kinetics: Kinetics, times: ArrayLike<Seconds>, temperatures: ArrayLike<Kelvin>): number {
  requireHistory(times, temperatures);
  return integrate(kinetics, times, temperatures);
}

function integrate(kinetics: Kinetics, times: ArrayLike<number>, temperatures: ArrayLike<number>): number {
  let alpha = 0;
  let before = temperatures.length > 0 ? rampRateEndingAt(kinetics, temperatures[0]) : 0;
  for (let i = 1; i < times.length; i++) {
    const from = temperatures[i - 1];
    const to = temperatures[i];
    const after = rampRateEndingAt(kinetics, to);
    const mean = Math.abs(to - from) < flat ? heatworkRate(kinetics, (from + to) / 2) : (after - before) / (to - from);
    alpha += mean * (times[i] - times[i - 1]);
    before = after;
  }
  return alpha;
}

/** Heat work on every cone of the scale [-], in the order of `coneNames`; otherwise as `heatworkOf`. */
export function heatworkAlphas(times: ArrayLike<Seconds>, temperatures: ArrayLike<Kelvin>): Float64Array {
  requireHistory(times, temperatures);
  return Float64Array.from(scaleKinetics, (kinetics) => integrate(kinetics, times, temperatures));
}

/**
 * Place of a history on the cone scale [cones]; see `positionFromAlphas`.
 *
 * @param times         [s], never falling
 * @param temperatures  [K], > 0, same length
 * @throws RangeError naming the first point that is out of range
 */
export function heatworkPosition(times: ArrayLike<Seconds>, temperatures: ArrayLike<Kelvin>): ConePosition {
  return positionFromAlphas(heatworkAlphas(times, temperatures));
}

/**
 * Place on the cone scale of the heat work done on every cone [cones].
 *
 * The hottest cone that is down (alpha >= 1) and the next hotter one give the place: f = ln a_k / (ln a_k - ln a_k+1)
 * of the way. Where no cone is down, or the hottest is, the end pair's line is carried on for at most one cone.
 *
 * @param alphas  heat work per cone, in the order of `positions`; 0 is allowed
 * @param positions  places of the cones, rising; left out: all of the scale. At least two.
 */
export function positionFromAlphas(
  alphas: ArrayLike<number>,
  positions: readonly ConePosition[] = scalePositions,
): ConePosition {
  const last = positions.length - 1;
  let k = last;
  while (k >= 0 && !(alphas[k] >= 1)) k--;
  const lower = Math.min(Math.max(k, 0), last - 1);
  const low = positions[lower];
  const high = positions[lower + 1];
  const lnLow = Math.log(alphas[lower]);
  const lnHigh = Math.log(alphas[lower + 1]);
  const floor = positions[0] - beyond;
  const ceiling = positions[last] + beyond;
  // Far from any cone (ambient, or alpha underflowed to 0) the pair says nothing.
  if (!(lnLow > lnHigh) || !Number.isFinite(lnHigh)) {
    if (k < 0) return floor;
    return k === last ? ceiling : Number.isFinite(lnLow) && lnHigh === -Infinity ? low : high;
  }
  const place = low + (lnLow / (lnLow - lnHigh)) * (high - low);
  return Math.min(Math.max(place, floor), ceiling);
}

function requireHistory(times: ArrayLike<number>, temperatures: ArrayLike<number>): void {
  requireThat(
    times.length === temperatures.length,
    "temperatures.length",
    temperatures.length,
    `${times.length}, one per time`,
  );
  for (let i = 0; i < times.length; i++) {
    const temperature = temperatures[i];
    requireThat(
      temperature > 0 && temperature < 5000,
      `temperatures[${i}]`,
      temperature,
      "a temperature between 0 and 5000 K",
    );
    const since = i > 0 ? times[i] - times[i - 1] : 0;
    requireThat(
      since >= 0 && Number.isFinite(times[i]),
      `times[${i}]`,
      times[i],
      "a time in s, never before the one above it",
    );
  }
}
