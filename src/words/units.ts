/** Which units, clock and money a reader wants. SI values become these only at the edges. */
export interface UnitPreference {
  /** Metric: mm for gaps and posts, cm for ware and kilns. Inch: inches and fractions of an inch. */
  readonly length: "metric" | "inch";
  readonly temperature: "celsius" | "fahrenheit";
  readonly mass: "kilogram" | "pound";
  readonly clock: "24" | "12";
}

export const metricUnits: UnitPreference = { length: "metric", temperature: "celsius", mass: "kilogram", clock: "24" };
export const inchUnits: UnitPreference = { length: "inch", temperature: "fahrenheit", mass: "pound", clock: "12" };
