import { requirePositive } from "#base";
import { heatworkPosition, type ConePosition } from "#engine/heatwork";
import type { Schedule, Segment } from "#engine/kiln";
import type { Kelvin, KelvinPerSecond, Seconds } from "#engine/units";

/** A schedule as a kiln without limits would follow it. */
export interface IdealCurve {
  readonly times: readonly Seconds[];
  readonly temperatures: readonly Kelvin[];
  /** When each segment's hold ends [s]. */
  readonly segmentEnds: readonly Seconds[];
}

/**
 * The corners of a schedule's curve.
 *
 * @param room      temperature at the start [K]
 * @param fullRate  what "as fast as the kiln can" comes to [K/s], > 0
 */
export function idealCurve(segments: readonly Segment[], room: Kelvin, fullRate: KelvinPerSecond): IdealCurve {
  requirePositive(fullRate, "fullRate", "K/s");
  const times: number[] = [0];
  const temperatures: number[] = [room];
  const segmentEnds: number[] = [];
  let time = 0;
  let temperature = room;
  const reach = (seconds: number, target: Kelvin): void => {
    time += seconds;
    temperature = target;
    times.push(time);
    temperatures.push(target);
  };
  for (const { rate, target, hold } of segments) {
    reach(Math.abs(target - temperature) / (rate === "full" ? fullRate : rate), target);
    if (hold > 0) reach(hold, target);
    segmentEnds.push(time);
  }
  return { times, temperatures, segmentEnds };
}

/** Fall of a studio kiln's temperature just after the power goes off [K/s]: 200 C/h. Estimated by us. */
const firstCooling: KelvinPerSecond = 200 / 3600;

/**
 * Cone equivalent of a schedule on a kiln without limits, cooling included [cones].
 *
 * A first guess only: the ware lags, and no two places get the same. The forecast tells.
 */
export function idealPosition(
  schedule: Pick<Schedule, "segments">,
  room: Kelvin,
  fullRate: KelvinPerSecond,
): ConePosition {
  const { times, temperatures } = idealCurve(schedule.segments, room, fullRate);
  const fall = Math.min(200, temperatures.at(-1)! - 1);
  return heatworkPosition(
    [...times, times.at(-1)! + fall / firstCooling],
    [...temperatures, temperatures.at(-1)! - fall],
  );
}
