import { requirePositive } from "#base";
import type { Kelvin, KelvinDifference, KelvinPerSecond } from "#engine/units";

/**
 * Heat work of one cone: d(alpha)/dt = k(T), alpha = 1 where its tip reaches the level of its base.
 *
 * Described by what a chart shows: the end point T of a steady ramp against L, the log of its rate over 60 K/h:
 * T = end + slope L + curvature L². A plain Arrhenius law has a curvature of slope²/T, about 0.4 K; the published
 * chart departs from it cone by cone by up to ±4 K, so the curvature is the cone's own (docs/explanation/heatwork.md).
 * Beyond 15 and 150 K/h, where no chart value stands, it fades into an Arrhenius law of the cone's own mean slope.
 */
export interface Kinetics {
  /** End point of a steady ramp of 60 K/h. */
  readonly end: Kelvin;
  /** How far the end point rises when the rate grows e-fold, at 60 K/h. */
  readonly slope: KelvinDifference;
  readonly curvature: KelvinDifference;
}

const referenceRate = 60 / 3600;
/** Ends of the range with chart values, as L. */
const slowest = Math.log(15 / 60);
const fastest = Math.log(150 / 60);

/** L of the ramp that ends at a temperature, and dL/dT [1/K]. */
function lnRampRate(kinetics: Kinetics, temperature: number): [number, number] {
  const { end, slope, curvature } = kinetics;
  const low = end + slope * slowest + curvature * slowest * slowest;
  const high = end + slope * fastest + curvature * fastest * fastest;
  if (temperature > low && temperature < high) {
    const above = temperature - end;
    // The root that tends to above / slope for no curvature, in the form that loses no digits.
    const root = Math.sqrt(slope * slope + 4 * curvature * above);
    return [(2 * above) / (slope + root), 1 / root];
  }
  const upward = temperature >= high;
  const [joint, at] = upward ? [fastest, high] : [slowest, low];
  const atJoint = slope + 2 * curvature * joint;
  const beyond = Math.abs(temperature - at);
  // dL/dT falls back from its value at the joint to 1 / slope over this distance; short of it k(T) could turn down.
  const fade = Math.max(slope, 2 * atJoint * Math.abs(atJoint / slope - 1));
  const extra = 1 / atJoint - 1 / slope;
  const left = Math.exp(-beyond / fade);
  const ratio = at / temperature;
  const change = (ratio * beyond) / slope + fade * extra * (1 - left);
  return [joint + (upward ? change : -change), (ratio * ratio) / slope + extra * left];
}

/**
 * Rate of the steady ramp that would bring the cone down exactly at this temperature [K/s].
 *
 * It is also the integral of `heatworkRate` over temperature. So on a straight line from T1 to T2 during dt, alpha
 * grows by dt (G(T2) - G(T1)) / (T2 - T1), whatever the step: integrating a history needs no small steps.
 */
export function rampRateEndingAt(kinetics: Kinetics, temperature: Kelvin): KelvinPerSecond {
  return referenceRate * Math.exp(lnRampRate(kinetics, temperature)[0]);
}

/** Rate of heat work at a temperature [1/s]. */
export function heatworkRate(kinetics: Kinetics, temperature: Kelvin): number {
  const [ln, perKelvin] = lnRampRate(kinetics, temperature);
  return referenceRate * Math.exp(ln) * perKelvin;
}

/**
 * Temperature at which a steady ramp brings the cone to its end point [K].
 *
 * @param rate  heating rate [K/s], > 0; the ramp starts far below
 * @throws RangeError naming `rate` if it is out of range
 */
export function rampEnd(kinetics: Kinetics, rate: KelvinPerSecond): Kelvin {
  requirePositive(rate, "rate", "K/s");
  const { end, slope, curvature } = kinetics;
  const ln = Math.log(rate / referenceRate);
  const inside = Math.min(Math.max(ln, slowest), fastest);
  let temperature = end + slope * inside + curvature * inside * inside;
  if (ln === inside) return temperature;
  // Beyond the joints L(T) is smooth and rising: Newton, kept from overshooting below 0 K.
  for (let step = 0; step < 40; step++) {
    const [now, perKelvin] = lnRampRate(kinetics, temperature);
    const next = Math.max(temperature - (now - ln) / perKelvin, temperature / 2);
    if (Math.abs(next - temperature) < 1e-10) return next;
    temperature = next;
  }
  return temperature;
}
