import type { Forecast } from "#engine/firing";
import { coneNames, heatworkAccumulator } from "#engine/heatwork";
import type { Kelvin, Seconds } from "#engine/units";

/** One line of the chart: temperatures at `FiringLines.times`. */
export type Line = readonly Kelvin[];

export interface FiringLines {
  /** From the start [s]. */
  readonly times: readonly Seconds[];
  readonly heatingEnds: Seconds;
  readonly scheduled: Line;
  /** What the first zone's sensor reads. */
  readonly sensor: Line;
  /** Means of the pieces that end with least and with most heatwork; null without pieces. */
  readonly coldest: { readonly pieceId: string; readonly line: Line } | null;
  readonly hottest: { readonly pieceId: string; readonly line: Line } | null;
}

/**
 * The lines of a firing up to `until`, for drawing.
 *
 * The last point is put exactly at `until`, straight between the two times about it.
 *
 * @param until [s]; beyond the forecast's own end it is the end
 */
export function firingLines(forecast: Forecast, until: Seconds): FiringLines {
  const { times } = forecast;
  const end = Math.min(until, times.at(-1) ?? 0);
  const kept = times.filter((time) => time < end);
  const cut = (line: readonly number[]): Line => [...line.slice(0, kept.length), valueAt(times, line, end)];
  const byHeatwork = [...forecast.pieces].sort((a, b) => a.heatwork.mean - b.heatwork.mean);
  const pieceLine = (piece: Forecast["pieces"][number] | undefined): FiringLines["coldest"] =>
    piece ? { pieceId: piece.pieceId, line: cut(piece.history.mean) } : null;
  return {
    times: [...kept, end],
    heatingEnds: forecast.heatingEnds,
    scheduled: cut(forecast.scheduled),
    sensor: cut(forecast.sensors[0] ?? []),
    coldest: pieceLine(byHeatwork[0]),
    hottest: pieceLine(byHeatwork.at(-1)),
  };
}

/** Value of a line at a time, straight between its points, its end value beyond them. */
export function valueAt(times: readonly Seconds[], line: readonly number[], time: Seconds): number {
  const after = times.findIndex((each) => each >= time);
  if (after < 0) return line.at(-1) ?? Number.NaN;
  if (after === 0) return line[0] ?? Number.NaN;
  const share = (time - times[after - 1]) / (times[after] - times[after - 1]);
  return line[after - 1] + share * (line[after] - line[after - 1]);
}

/**
 * Heatwork of one cone along a temperature line [-]: 0 at the start, 1 when that cone is down.
 *
 * @param cone  wanted cone, as text
 */
export function heatworkAlong(times: readonly Seconds[], line: Line, cone: string): readonly number[] {
  const at = coneNames.indexOf(cone);
  if (at < 0) throw new RangeError(`cone "${cone}" is not on the scale`);
  // The accumulator counts a range of two cones at least; the wanted one is kept.
  const [from, to] = at > 0 ? [at - 1, at] : [at, at + 1];
  const sums = heatworkAccumulator([line[0] ?? 293], { from: coneNames[from], to: coneNames[to] });
  const own = at - from;
  return times.map((time, i) => {
    if (i > 0) sums.add(time - times[i - 1], [line[i]]);
    return sums.alphas[own];
  });
}

/** Round steps of an axis: 1, 2 or 5 times a power of ten, so that at most `most` fit. */
export function roundStep(range: number, most: number): number {
  const least = range / Math.max(most, 1);
  const power = 10 ** Math.floor(Math.log10(least));
  return [1, 2, 5, 10].map((factor) => factor * power).find((step) => step >= least * (1 - 1e-9)) ?? 10 * power;
}
