import { requireThat } from "#base";
import { kelvinPerHour, type Kelvin, type KelvinDifference, type KelvinPerSecond, type Seconds } from "#engine/units";
import { coneAt, coneNames, type ConePosition } from "./cones.ts";
import { heatworkAlphas, heatworkPosition, positionFromAlphas } from "./position.ts";
import { limitOfError, type SensorClass } from "./thermocouple.ts";
import type { ThermocoupleType } from "./thermocouple-functions.ts";

/** The sensor that recorded a history. */
export interface LogSensor {
  readonly type: ThermocoupleType;
  readonly grade: SensorClass;
  /** Reading less truth, as known; it is taken off the readings. */
  readonly offset: KelvinDifference;
  /** How well the offset is known, one standard deviation; null if nobody compared it: the wire's limit counts. */
  readonly offsetSd: KelvinDifference | null;
}

/** One reason why a cone equivalent is not exact, as one standard deviation to either side [cones]. */
export interface BandShare {
  readonly source: "sensor" | "kinetics" | "chart";
  /** The same in temperature at the peak [K]. */
  readonly sd: KelvinDifference;
  readonly colder: number;
  readonly hotter: number;
}

/** Cone equivalent of a temperature history, with its band. */
export interface ConeEquivalent {
  readonly position: ConePosition;
  /** Nearest whole or half cone, as text. */
  readonly cone: string;
  /** Heat work on every cone of the scale. */
  readonly alphas: ReadonlyMap<string, number>;
  /** Band that holds 8 in 10: colder and hotter end [cones]. */
  readonly low: ConePosition;
  readonly high: ConePosition;
  readonly shares: readonly BandShare[];
  readonly peak: Kelvin;
  /** Mean rate over the last 100 K before the peak, holds included; null if the history rises less than that. */
  readonly endRate: KelvinPerSecond | null;
}

/** Normal quantile of 0.9: a band of ± this many standard deviations holds 8 in 10. */
const eightInTen = 1.2816;
/** Cones of one kind and box, and whole degrees in the chart [K]. Estimated by us. */
const chartSd = 1.5;
/** What is taken for a sensor nobody named. */
export const usualLogSensor: LogSensor = { type: "K", grade: "standard", offset: 0, offsetSd: null };

/**
 * How far the kinetics' end point may be off [K], one standard deviation, by the rate over the last 100 K.
 *
 * The root-mean-square error on chart values left out of the fit: 2.2 K at 60, 2.9 K at 150, 5.2 K at 15 K/h
 * (docs/reference/cone-fit.md), linear in ln rate between, and growing as fast beyond.
 */
export function kineticsSd(endRate: KelvinPerSecond): KelvinDifference {
  const ln = Math.log(kelvinPerHour(endRate) / 60);
  const slow = (5.2 - 2.2) / Math.log(4);
  const fast = (2.9 - 2.2) / Math.log(2.5);
  return 2.2 + (ln < 0 ? -ln * slow : ln * fast);
}

/**
 * Cone equivalent of a temperature history, also a measured one, with a band from sensor, kinetics and chart.
 *
 * Each source shifts the whole history; the wire's limit of error is taken as a uniform distribution. The band is for
 * the place the sensor stands, not for the ware.
 *
 * @param times         [s], never falling, two or more
 * @param temperatures  as read [K], > 0, same length
 * @throws RangeError naming the first point that is out of range
 * Source: [astm-e230] for the sensor's part
 */
export function coneEquivalentOf(
  times: ArrayLike<Seconds>,
  temperatures: ArrayLike<Kelvin>,
  sensor: LogSensor = usualLogSensor,
): ConeEquivalent {
  requireThat(times.length >= 2, "times.length", times.length, "2 or more points");
  const corrected = Float64Array.from(temperatures, (reading) => reading - sensor.offset);
  const alphas = heatworkAlphas(times, corrected);
  const position = positionFromAlphas(alphas);
  const peakIndex = corrected.reduce((best, value, i) => (value > corrected[best] ? i : best), 0);
  const peak = corrected[peakIndex];
  const endRate = rateBeforePeak(times, corrected, peakIndex);
  const shifted = (sd: (temperature: number) => number, sign: number): number =>
    heatworkPosition(
      times,
      corrected.map((temperature) => Math.max(temperature + sign * sd(temperature), 1)),
    );
  const share = (source: BandShare["source"], sd: (temperature: number) => number): BandShare => ({
    source,
    sd: sd(peak),
    colder: Math.max(0, position - shifted(sd, -1)),
    hotter: Math.max(0, shifted(sd, 1) - position),
  });
  const modelSd = kineticsSd(endRate ?? 60 / 3600);
  const wireSd = (temperature: number): number =>
    limitOfError(sensor.type, sensor.grade, temperature).limit / Math.sqrt(3);
  const shares = [
    share("sensor", sensor.offsetSd === null ? wireSd : () => sensor.offsetSd!),
    share("kinetics", () => modelSd),
    share("chart", () => chartSd),
  ];
  const width = (side: "colder" | "hotter"): number => eightInTen * Math.hypot(...shares.map((each) => each[side]));
  return {
    position,
    cone: coneAt(position),
    alphas: new Map(coneNames.map((cone, i) => [cone, alphas[i]])),
    low: position - width("colder"),
    high: position + width("hotter"),
    shares,
    peak,
    endRate,
  };
}

/** Mean rate over the last 100 K up to the peak; the time is when the history first passed each. */
function rateBeforePeak(times: ArrayLike<number>, temperatures: Float64Array, peakIndex: number): number | null {
  const from = temperatures[peakIndex] - 100;
  for (let i = peakIndex; i > 0; i--) {
    if (temperatures[i - 1] > from) continue;
    const share = (from - temperatures[i - 1]) / (temperatures[i] - temperatures[i - 1]);
    const since = times[i - 1] + share * (times[i] - times[i - 1]);
    const lasted = times[peakIndex] - since;
    return lasted > 0 ? 100 / lasted : null;
  }
  return null;
}
