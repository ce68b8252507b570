import { bracketedRoot } from "#engine/numerics";
import { requireThat } from "#base";
import {
  celsiusFromKelvin,
  kelvinFromCelsius,
  type Kelvin,
  type KelvinDifference,
  type Millivolts,
} from "#engine/units";
import { referenceFunctions, type ThermocoupleType } from "./thermocouple-functions.ts";

/** Range of a type's reference function [K]. */
export function thermocoupleRange(type: ThermocoupleType): { readonly low: Kelvin; readonly high: Kelvin } {
  const segments = referenceFunctions[type];
  return { low: kelvinFromCelsius(segments[0].low), high: kelvinFromCelsius(segments.at(-1)!.high) };
}

/**
 * Voltage of a thermocouple with its reference junction at 0 C [mV].
 *
 * @throws RangeError naming `temperature` if it is outside `thermocoupleRange`
 * Source: [nist-monograph-175]
 */
export function emfAt(type: ThermocoupleType, temperature: Kelvin): Millivolts {
  const { low, high } = thermocoupleRange(type);
  requireThat(
    temperature >= low && temperature <= high,
    "temperature",
    `${temperature} K`,
    `${low} to ${high} K for type ${type}`,
  );
  return emf(type, celsiusFromKelvin(temperature));
}

function emf(type: ThermocoupleType, t: number): number {
  const segment = referenceFunctions[type].find(({ high }) => t <= high) ?? referenceFunctions[type].at(-1)!;
  const sum = segment.coefficients.reduceRight((total, c) => total * t + c, 0);
  if (segment.bump === null) return sum;
  const [a0, a1, a2] = segment.bump;
  return sum + a0 * Math.exp(a1 * (t - a2) * (t - a2));
}

/** Type B falls to its lowest voltage here [C], then rises: below about 42 C one voltage has two temperatures. */
const lowestB = 21.020262;

/**
 * Temperature for a voltage with the reference junction at 0 C [K], by inverting the reference function.
 *
 * For type B below 42 C, where two temperatures share a voltage, the one above 21 C is given; `branch: "cold"` gives
 * the other.
 *
 * @throws RangeError naming `voltage` if no temperature in the type's range has it
 *
 * Accuracy: within 1e-6 K of the reference function's own inverse (thermocouple.test.ts).
 */
export function temperatureFromEmf(
  type: ThermocoupleType,
  voltage: Millivolts,
  branch: "hot" | "cold" = "hot",
): Kelvin {
  const range = thermocoupleRange(type);
  const cold = type === "B" && branch === "cold";
  const low = type === "B" && !cold ? lowestB : celsiusFromKelvin(range.low);
  const high = cold ? lowestB : celsiusFromKelvin(range.high);
  const [a, b] = [emf(type, low), emf(type, high)];
  requireThat(
    voltage >= Math.min(a, b) && voltage <= Math.max(a, b),
    "voltage",
    `${voltage} mV`,
    `${Math.min(a, b).toFixed(4)} to ${Math.max(a, b).toFixed(4)} mV for type ${type}`,
  );
  return kelvinFromCelsius(bracketedRoot((t) => emf(type, t) - voltage, low, high, 1e-7));
}

/**
 * Temperature of the hot junction [K] from the voltage at the instrument's terminals and the terminals' temperature.
 *
 * @throws RangeError if either is out of the type's range
 */
export function hotJunction(type: ThermocoupleType, measured: Millivolts, coldJunction: Kelvin): Kelvin {
  return temperatureFromEmf(type, measured + emfAt(type, coldJunction));
}

/** Voltage at the instrument's terminals [mV]: the other way of `hotJunction`. */
export function terminalVoltage(type: ThermocoupleType, hot: Kelvin, coldJunction: Kelvin): Millivolts {
  return emfAt(type, hot) - emfAt(type, coldJunction);
}

/** Quality of wire by ASTM E230. */
export type SensorClass = "standard" | "special";

interface Limit {
  readonly from: number;
  readonly to: number;
  readonly least: Readonly<Record<SensorClass, number>>;
  readonly share: Readonly<Record<SensorClass, number>>;
}

const baseMetal: Limit = {
  from: 0,
  to: 1260,
  least: { standard: 2.2, special: 1.1 },
  share: { standard: 0.0075, special: 0.004 },
};
const platinum: Limit = {
  from: 0,
  to: 1480,
  least: { standard: 1.5, special: 0.6 },
  share: { standard: 0.0025, special: 0.001 },
};
const limits: Readonly<Record<ThermocoupleType, Limit>> = {
  K: baseMetal,
  N: baseMetal,
  R: platinum,
  S: platinum,
  B: { from: 870, to: 1700, least: { standard: 0, special: 0 }, share: { standard: 0.005, special: 0.0025 } },
};

/** A limit of error: how far new wire may be off. */
export interface ErrorLimit {
  readonly limit: KelvinDifference;
  /** False outside the range the standard states, where its nearest rule is carried on. */
  readonly stated: boolean;
}

/**
 * Limit of error of new wire [K], plus or minus. Used wire drifts beyond it.
 *
 * The greater of a fixed part and a share of the temperature in Celsius.
 * Source: [astm-e230]
 */
export function limitOfError(type: ThermocoupleType, grade: SensorClass, temperature: Kelvin): ErrorLimit {
  const { from, to, least, share } = limits[type];
  const t = celsiusFromKelvin(temperature);
  return { limit: Math.max(least[grade], share[grade] * Math.abs(t)), stated: t >= from && t <= to };
}

/** What a sensor's use has done to it. All parameters: no sourced number for drift exists here, so 0 is no promise. */
export interface SensorWear {
  /** Reading less truth when it was last compared. */
  readonly offset: KelvinDifference;
  /** Change of the reading per hour spent hot since then [K/h]; below 0 it reads ever lower. */
  readonly driftPerHour: number;
  readonly hoursHot: number;
}

/** Reading less truth now [K]. */
export function sensorError(wear: SensorWear): KelvinDifference {
  return wear.offset + wear.driftPerHour * wear.hoursHot;
}
