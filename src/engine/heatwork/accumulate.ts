import { requireNotNegative, requireThat } from "#base";
import type { Kelvin, Seconds } from "#engine/units";
import { coneNames, conePositionOf, type ConePosition } from "./cones.ts";
import { scaleKinetics } from "./cone-table.ts";
import { heatworkRate, rampRateEndingAt } from "./kinetics.ts";
import { positionFromAlphas } from "./position.ts";

/**
 * Heat work of many bodies at once, step by step, for every cone of the scale.
 *
 * Between two steps each temperature is taken as straight, and the exact integral of that line is added, so that a
 * step may be as long as the history is straight. Costs one table look-up per body, cone and step.
 */
export interface HeatworkAccumulator {
  /** Cones kept, coldest first. */
  readonly cones: readonly string[];
  /**
   * Adds one step.
   *
   * @param seconds       its length, >= 0
   * @param temperatures  of every body at the step's end [K], 1 to 2500
   * @throws RangeError if `seconds` or the number of temperatures is wrong
   */
  readonly add: (seconds: Seconds, temperatures: ArrayLike<Kelvin>) => void;
  /** Place of one body so far [cones]. */
  readonly positionOf: (body: number) => ConePosition;
  /** Places of all bodies so far [cones]. */
  readonly positions: () => Float64Array;
  /** Heat work so far [-], body by body, `cones.length` each. A view: it changes with the next step. */
  readonly alphas: Float64Array;
}

const coldest = 650;
const hottest = 1800;
const spacing = 1;
const rows = (hottest - coldest) / spacing + 1;
const flat = 1e-6;

interface Table {
  readonly count: number;
  /** Integral of the rate and rate by row and cone: G and G' of a cubic Hermite curve in temperature. */
  readonly integral: Float64Array;
  readonly rate: Float64Array;
}

function tabulate(from: number, to: number): Table {
  const count = to - from;
  const integral = new Float64Array(rows * count);
  const rate = new Float64Array(rows * count);
  for (let row = 0; row < rows; row++) {
    for (let cone = 0; cone < count; cone++) {
      const kinetics = scaleKinetics[from + cone];
      integral[row * count + cone] = rampRateEndingAt(kinetics, coldest + row * spacing);
      rate[row * count + cone] = heatworkRate(kinetics, coldest + row * spacing);
    }
  }
  return { count, integral, rate };
}

/**
 * Starts counting heat work for bodies that now have the given temperatures.
 *
 * @param start  temperatures now [K], one per body
 * @param range  cones to keep, coldest and hottest by name; left out: all. Fewer cones cost less.
 *
 * Accuracy: heat work within 1e-4 of the exact integral (0.002 K of a ramp) between 650 and 1800 K (accumulate.test.ts); nothing is
 * counted below 650 K, where 100 h add less than 1e-3 to the coldest cone.
 */
export function heatworkAccumulator(
  start: ArrayLike<Kelvin>,
  range: { readonly from: string; readonly to: string } = { from: coneNames[0], to: coneNames.at(-1)! },
): HeatworkAccumulator {
  const from = coneNames.indexOf(range.from);
  const to = coneNames.indexOf(range.to) + 1;
  requireThat(
    from >= 0 && to - from >= 2,
    "range",
    `${range.from} to ${range.to}`,
    "two cones of the scale, colder first",
  );
  const cones = coneNames.slice(from, to);
  const positions = cones.map(conePositionOf);
  const { count, integral, rate } = tabulate(from, to);
  const bodies = start.length;
  const before = Float64Array.from(start);
  const alphas = new Float64Array(bodies * count);

  const add = (seconds: Seconds, temperatures: ArrayLike<Kelvin>): void => {
    requireNotNegative(seconds, "seconds", "s");
    requireThat(temperatures.length === bodies, "temperatures.length", temperatures.length, `${bodies}, one per body`);
    for (let body = 0; body < bodies; body++) {
      const a = before[body];
      const b = temperatures[body];
      before[body] = b;
      addLine(alphas, body * count, a, b, seconds);
    }
  };

  /** Adds the mean rate on the line from a to b, as (G(b) - G(a)) / (b - a), to every cone of one body. */
  const addLine = (into: Float64Array, first: number, a: number, b: number, seconds: number): void => {
    if (a <= coldest && b <= coldest) return;
    // The part of a step that lies outside the table is cut off: below nothing happens, above everything is down.
    const low = Math.min(Math.max(a, coldest), hottest);
    const high = Math.min(Math.max(b, coldest), hottest);
    const change = high - low;
    if (Math.abs(change) < flat) {
      const at = Math.min(Math.floor((low - coldest) / spacing), rows - 2);
      const u = (low - coldest) / spacing - at;
      const share = Math.abs(b - a) < flat ? 1 : 0;
      // Rate as the slope of the same Hermite curve, so that a hold and a very slow slope agree.
      for (let cone = 0; cone < count; cone++) {
        const row = at * count + cone;
        const slope = (integral[row + count] - integral[row]) / spacing;
        const r0 = rate[row];
        const r1 = rate[row + count];
        into[first + cone] +=
          seconds * share * (r0 + u * (2 * (3 * slope - 2 * r0 - r1) + 3 * u * (r0 + r1 - 2 * slope)));
      }
      return;
    }
    const perKelvin = seconds / (b - a);
    const rowA = Math.min(Math.floor((low - coldest) / spacing), rows - 2);
    const rowB = Math.min(Math.floor((high - coldest) / spacing), rows - 2);
    const ua = (low - coldest) / spacing - rowA;
    const ub = (high - coldest) / spacing - rowB;
    const a3 = ua * ua * (3 - 2 * ua);
    const b3 = ub * ub * (3 - 2 * ub);
    const a1 = ua * (1 - ua) * (1 - ua) * spacing;
    const b1 = ub * (1 - ub) * (1 - ub) * spacing;
    const a2 = ua * ua * (ua - 1) * spacing;
    const b2 = ub * ub * (ub - 1) * spacing;
    for (let cone = 0; cone < count; cone++) {
      const p = rowA * count + cone;
      const q = rowB * count + cone;
      const atA = integral[p] * (1 - a3) + integral[p + count] * a3 + rate[p] * a1 + rate[p + count] * a2;
      const atB = integral[q] * (1 - b3) + integral[q + count] * b3 + rate[q] * b1 + rate[q + count] * b2;
      into[first + cone] += perKelvin * (atB - atA);
    }
  };

  const positionOf = (body: number): ConePosition =>
    positionFromAlphas(alphas.subarray(body * count, (body + 1) * count), positions);
  return {
    cones,
    add,
    positionOf,
    positions: () => Float64Array.from({ length: bodies }, (_, body) => positionOf(body)),
    alphas,
  };
}
