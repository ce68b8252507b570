import { requirePositive } from "#base";
import type { Kelvin, KelvinPerSecond } from "#engine/units";

/**
 * Heat work of one cone: d(alpha)/dt = exp(lnA - activation / T), alpha = 1 where its tip reaches the shelf's level.
 *
 * One thermally activated process per cone. `activation` is E/R [K], `lnA` the log of the rate factor in 1/s.
 */
export interface Kinetics {
  readonly lnA: number;
  readonly activation: Kelvin;
}

/** Rate of heat work at a temperature [1/s]. */
export function rateAt(kinetics: Kinetics, temperature: Kelvin): number {
  return Math.exp(kinetics.lnA - kinetics.activation / temperature);
}

/**
 * Integral of the rate over temperature from absolute zero [K/s].
 *
 * On a straight line from T1 to T2 during dt, alpha grows by dt (G(T2) - G(T1)) / (T2 - T1), whatever the step:
 * the time integral needs no small steps. With x = E/RT, G = T exp(lnA - x) e^x E2(x), where E2 is the exponential
 * integral, here by its continued fraction, which loses no digits to cancellation.
 *
 * Accuracy: relative error below 1e-12 for x above 15, which holds for every cone below 1700 K (kinetics.test.ts).
 * Source: [dlmf-8.19.17]
 */
export function rateIntegral(kinetics: Kinetics, temperature: Kelvin): number {
  const x = kinetics.activation / temperature;
  let tail = x + 2 * (fractionDepth + 1);
  for (let n = fractionDepth; n >= 1; n--) tail = x + 2 * n - (n * (n + 1)) / tail;
  return (temperature * Math.exp(kinetics.lnA - x)) / tail;
}

const fractionDepth = 12;

/**
 * Temperature at which a steady ramp brings the cone to its end point [K].
 *
 * @param rate  heating rate [K/s], > 0; the ramp starts far below
 * @throws RangeError naming `rate` if it is out of range
 *
 * Accuracy: 1e-9 K from the root.
 */
export function rampEnd(kinetics: Kinetics, rate: KelvinPerSecond): Kelvin {
  requirePositive(rate, "rate", "K/s");
  // Newton on ln G(T) = ln rate, which is nearly straight in 1/T: a handful of steps from anywhere in the kiln's range.
  let temperature = 1200;
  for (let step = 0; step < 60; step++) {
    const integral = rateIntegral(kinetics, temperature);
    const perKelvin = rateAt(kinetics, temperature) / integral;
    const inverse = 1 / temperature + (Math.log(integral) - Math.log(rate)) / (perKelvin * temperature * temperature);
    const next = inverse > 0 ? Math.min(1 / inverse, 2 * temperature) : 2 * temperature;
    if (Math.abs(next - temperature) < 1e-10) return next;
    temperature = next;
  }
  return temperature;
}
