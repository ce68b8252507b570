import { requireThat } from "#base";
import type { Kelvin } from "#engine/units";

const lowest = 200;
const highest = 2000;
const spacing = 10;
const count = (highest - lowest) / spacing + 1;

/**
 * Specific heat by temperature and its exact integral.
 *
 * Kept as straight pieces on a 10 K grid from 200 to 2000 K, so that the heat taken up between two temperatures and
 * the specific heat there always agree: an energy ledger then balances to rounding.
 */
export interface HeatContent {
  /** Specific heat at the grid points [J/(kg K)]. */
  readonly specificHeat: Float64Array;
  /** Heat content above 200 K at the grid points [J/kg]. */
  readonly content: Float64Array;
}

/**
 * Heat content from a table of specific heats, straight between the points and constant beyond them.
 *
 * @param points  [temperature in C, specific heat in J/(kg K)], temperatures rising
 * @throws RangeError naming the first point that is out of order or not above 0
 */
export function heatContentOf(points: readonly (readonly [number, number])[]): HeatContent {
  points.forEach(([celsius, heat], i) => {
    requireThat(heat > 0 && Number.isFinite(heat), `points[${i}][1]`, heat, "a specific heat above 0 J/(kg K)");
    const before = points[i - 1]?.[0] ?? -Infinity;
    requireThat(celsius > before, `points[${i}][0]`, celsius, `a temperature above ${before} C`);
  });
  requireThat(points.length > 0, "points", "empty", "at least one [temperature, specific heat]");
  const specificHeat = Float64Array.from({ length: count }, (_, i) => between(points, lowest + i * spacing - 273.15));
  const content = new Float64Array(count);
  for (let i = 1; i < count; i++) {
    content[i] = content[i - 1] + (spacing * (specificHeat[i - 1] + specificHeat[i])) / 2;
  }
  return { specificHeat, content };
}

function between(points: readonly (readonly [number, number])[], celsius: number): number {
  const next = points.findIndex(([at]) => at >= celsius);
  if (next === 0) return points[0][1];
  if (next === -1) return points.at(-1)![1];
  const [t0, c0] = points[next - 1];
  const [t1, c1] = points[next];
  return c0 + ((c1 - c0) * (celsius - t0)) / (t1 - t0);
}

/** Specific heat [J/(kg K)]. Beyond the grid the end piece goes on. */
export function specificHeatAt({ specificHeat }: HeatContent, temperature: Kelvin): number {
  const place = (temperature - lowest) / spacing;
  const at = place < 0 ? 0 : place > count - 2 ? count - 2 : place | 0;
  return specificHeat[at] + (specificHeat[at + 1] - specificHeat[at]) * (place - at);
}

/** Heat content above 200 K [J/kg]: the integral of `specificHeatAt`. */
export function heatContentAt({ specificHeat, content }: HeatContent, temperature: Kelvin): number {
  const place = (temperature - lowest) / spacing;
  const at = place < 0 ? 0 : place > count - 2 ? count - 2 : place | 0;
  const along = place - at;
  const left = specificHeat[at];
  return content[at] + spacing * along * (left + ((specificHeat[at + 1] - left) * along) / 2);
}

/** Many bodies at once, each of one of several heat contents. */
export interface HeatTables {
  /** Mass x heat content [J] of bodies `which`, into `heat`. All arrays by body. */
  readonly contents: (
    kind: Int32Array,
    which: Int32Array,
    mass: Float64Array,
    temperature: Float64Array,
    heat: Float64Array,
  ) => void;
  /** Mass x specific heat x factor [J/K x factor] of bodies `which`, added to `into`. */
  readonly specificHeats: (
    kind: Int32Array,
    which: Int32Array,
    mass: Float64Array,
    temperature: Float64Array,
    into: Float64Array,
    factor: number,
  ) => void;
}

/** Lays several heat contents out in one table: `kind` 0 is the first. Same values as `heatContentAt`. */
export function heatTables(heats: readonly HeatContent[]): HeatTables {
  const heatAt = new Float64Array(heats.length * count);
  const contentAt = new Float64Array(heats.length * count);
  heats.forEach(({ specificHeat, content }, k) => {
    heatAt.set(specificHeat, k * count);
    contentAt.set(content, k * count);
  });
  return {
    contents: (kind, which, mass, temperature, heat) => {
      for (let w = 0; w < which.length; w++) {
        const i = which[w];
        const place = (temperature[i] - lowest) / spacing;
        const at = place < 0 ? 0 : place > count - 2 ? count - 2 : Math.trunc(place);
        const along = place - at;
        const row = kind[i] * count + at;
        const left = heatAt[row];
        heat[i] = mass[i] * (contentAt[row] + spacing * along * (left + (heatAt[row + 1] - left) * 0.5 * along));
      }
    },
    specificHeats: (kind, which, mass, temperature, into, factor) => {
      for (let w = 0; w < which.length; w++) {
        const i = which[w];
        const place = (temperature[i] - lowest) / spacing;
        const at = place < 0 ? 0 : place > count - 2 ? count - 2 : Math.trunc(place);
        const row = kind[i] * count + at;
        into[i] += factor * mass[i] * (heatAt[row] + (heatAt[row + 1] - heatAt[row]) * (place - at));
      }
    },
  };
}
