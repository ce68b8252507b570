import { requirePositive } from "#base";
import type { Kelvin, KelvinPerSecond } from "#engine/units";
import { coneChart, coneKinetics, type ChartValue } from "./cone-table.ts";
import { coneNames, conePositionOf, type ConeKind, type ConePosition } from "./cones.ts";
import { rampEnd } from "./kinetics.ts";

/** An end point read from the chart, with the kind and rate it holds for. */
export interface ChartReading {
  readonly cone: string;
  readonly kind: ConeKind;
  readonly rate: KelvinPerSecond;
  readonly temperature: Kelvin;
  /** True if the rate lies outside those published for this cone, so that the kinetics carry the chart on. */
  readonly beyondChart: boolean;
  /** Fewest agreeing copies among the values used; 0: from memory. */
  readonly copies: number;
}

/**
 * End point of a cone at a heating rate over the last 100 K, from the published chart; null if the chart has no such
 * cone of that kind.
 *
 * Between published rates linear in ln rate. Beyond them, and for kinds with one rate, the cone's kinetics, shifted to
 * meet the nearest published value.
 *
 * @throws RangeError naming `rate` if it is not above 0 K/s
 * Source: [orton-chart]
 */
export function chartEndPoint(
  cone: string,
  rate: KelvinPerSecond,
  kind: ConeKind = "self-supporting regular",
): ChartReading | null {
  requirePositive(rate, "rate", "K/s");
  const values = coneChart.filter((value) => value.cone === cone && value.kind === kind);
  const slow = values.findLast((value) => value.rate <= rate * (1 + 1e-9));
  const fast = values.find((value) => value.rate >= rate * (1 - 1e-9));
  const reading = (temperature: Kelvin, from: readonly ChartValue[], beyondChart: boolean): ChartReading => ({
    cone,
    kind,
    rate,
    temperature,
    beyondChart,
    copies: Math.min(...from.map((value) => value.copies)),
  });
  if (slow && fast) {
    if (slow === fast) return reading(slow.temperature, [slow], false);
    const share = Math.log(rate / slow.rate) / Math.log(fast.rate / slow.rate);
    return reading(slow.temperature + share * (fast.temperature - slow.temperature), [slow, fast], false);
  }
  const nearest = slow ?? fast;
  const kinetics = coneKinetics.find((row) => row.cone === cone && row.kind === kind)?.kinetics;
  if (!nearest || !kinetics) return null;
  return reading(nearest.temperature + rampEnd(kinetics, rate) - rampEnd(kinetics, nearest.rate), [nearest], true);
}

/**
 * Place on the cone scale of a plain ramp that ends at a temperature, from the chart alone [cones]; linear in
 * temperature between neighbouring cones, and held at the ends of the scale.
 *
 * @param rate  over the last 100 K [K/s], > 0
 */
export function chartPosition(temperature: Kelvin, rate: KelvinPerSecond): ConePosition {
  const ends = coneNames.map((cone) => chartEndPoint(cone, rate)!.temperature);
  const next = ends.findIndex((end) => end > temperature);
  if (next === 0) return conePositionOf(coneNames[0]);
  if (next < 0) return conePositionOf(coneNames.at(-1)!);
  const [low, high] = [ends[next - 1], ends[next]];
  const [from, to] = [conePositionOf(coneNames[next - 1]), conePositionOf(coneNames[next])];
  return from + ((temperature - low) / (high - low)) * (to - from);
}
