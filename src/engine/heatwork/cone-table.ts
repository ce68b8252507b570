import { requireThat } from "#base";
import { kelvinFromCelsius, kelvinPerSecondFromPerHour, type Kelvin, type KelvinPerSecond } from "#engine/units";
import { chartRows, kineticsRows, scaleCones } from "./cone-data.ts";
import type { ConeKind } from "./cones.ts";
import type { Kinetics } from "./kinetics.ts";

/** One value of the published chart: kind and rate always stay with the temperature. */
export interface ChartValue {
  readonly cone: string;
  readonly kind: ConeKind;
  /** Over the last 100 C. */
  readonly rate: KelvinPerSecond;
  readonly temperature: Kelvin;
  /** Independent copies that agree; 0 marks a remembered value nobody re-found. */
  readonly copies: number;
}

/** The published chart, by kind, cone and rate, all in SI. Source: [orton-chart] */
export const coneChart: readonly ChartValue[] = chartRows.map(([cone, kind, rate, celsius, copies]) => ({
  cone,
  kind,
  rate: kelvinPerSecondFromPerHour(rate),
  temperature: kelvinFromCelsius(celsius),
  copies,
}));

/** What a cone's kinetics rest on. */
export interface ConeKinetics {
  readonly cone: string;
  readonly kind: ConeKind;
  readonly kinetics: Kinetics;
  /** What it was fitted to: the cone's own rates, its neighbours or the self-supporting cone of the same recipe. */
  readonly basis: string;
}

/** Kinetics of every cone and kind but PCE, fitted to the chart (tools/fit-cones.ts). */
export const coneKinetics: readonly ConeKinetics[] = kineticsRows.map(([cone, kind, end, slope, curvature, basis]) => ({
  cone,
  kind,
  kinetics: { end, slope, curvature },
  basis,
}));

/**
 * Kinetics of one cone.
 *
 * @throws RangeError if the chart has no such cone of that kind
 */
export function kineticsOf(cone: string, kind: ConeKind = "self-supporting regular"): Kinetics {
  const found = coneKinetics.find((row) => row.cone === cone && row.kind === kind);
  requireThat(found !== undefined, "cone", `"${cone}", ${kind}`, "a cone and kind of the chart");
  return found.kinetics;
}

/** Kinetics of the scale, self-supporting regular, in the order of `coneNames`. */
export const scaleKinetics: readonly Kinetics[] = scaleCones.map((cone) => kineticsOf(cone));
