import { conePositionOf } from "#engine/heatwork";
import type { FiringClass, Kiln, Schedule } from "#engine/kiln";
import type { Kelvin, KelvinPerSecond, Seconds } from "#engine/units";
import { attainableRate } from "./attainable-rate.ts";
import { idealPosition } from "./ideal-curve.ts";

/** Something in a schedule that will not work or not do what was meant. Segments are counted from 0. */
export type ScheduleFault =
  /** Stop: hotter than the kiln may go. */
  | {
      readonly kind: "too hot";
      readonly level: "stop";
      readonly segment: number;
      readonly target: Kelvin;
      readonly limit: Kelvin;
    }
  /** Stop: the schedule fires far from the class's cone; 06 and 6 confused is the usual reason. */
  | { readonly kind: "wrong cone"; readonly level: "stop"; readonly cone: string; readonly offset: number }
  /** Stop: the first segment goes below room temperature, or there is none. */
  | { readonly kind: "no heating"; readonly level: "stop" }
  /** Check: asks for more than the kiln can about give at that temperature. The forecast tells when it falls behind. */
  | {
      readonly kind: "too fast";
      readonly level: "check";
      readonly segment: number;
      readonly target: Kelvin;
      readonly rate: KelvinPerSecond;
      readonly attainable: KelvinPerSecond;
    }
  /** Check: a step that neither climbs, cools nor holds. */
  | { readonly kind: "does nothing"; readonly level: "check"; readonly segment: number };

/** Off the class's cone by more than this, a schedule cannot be meant [cones]. */
const plainlyWrong = 3;

/**
 * What is wrong with a schedule on a kiln, worst first; empty if nothing is.
 *
 * @param firingClass  what it is to fire, or null where that is not known
 */
export function scheduleFaults(
  schedule: Schedule,
  kiln: Kiln,
  firingClass: FiringClass | null,
  room: Kelvin = 293.15,
): readonly ScheduleFault[] {
  const faults: ScheduleFault[] = [];
  let from = room;
  let hottest = room;
  schedule.segments.forEach(({ rate, target, hold }, segment) => {
    if (target > kiln.maxTemperature) {
      faults.push({ kind: "too hot", level: "stop", segment, target, limit: kiln.maxTemperature });
    }
    if (target === from && hold === 0) faults.push({ kind: "does nothing", level: "check", segment });
    const attainable = attainableRate(kiln, target, room);
    if (rate !== "full" && target > from && rate > attainable) {
      faults.push({ kind: "too fast", level: "check", segment, target, rate, attainable: Math.max(attainable, 0) });
    }
    hottest = Math.max(hottest, target);
    from = target;
  });
  if (hottest <= room) return [{ kind: "no heating", level: "stop" }];
  if (firingClass !== null) {
    const full = Math.max(attainableRate(kiln, hottest, room), 10 / 3600);
    const offset = idealPosition(schedule, room, full) - conePositionOf(firingClass.cone);
    if (Math.abs(offset) > plainlyWrong)
      faults.push({ kind: "wrong cone", level: "stop", cone: firingClass.cone, offset });
  }
  return faults.toSorted((a, b) => Number(b.level === "stop") - Number(a.level === "stop"));
}

/** Where and when a kiln cannot keep up with its schedule, from a computed firing. */
export interface FallsBehind {
  readonly at: Seconds;
  /** Segment that was running. */
  readonly segment: number;
  /** What the schedule asked for then. */
  readonly rate: KelvinPerSecond;
  readonly temperature: Kelvin;
}

/** What a computed firing must tell of its course; `Forecast` of #engine/firing does. */
export interface ComputedCourse {
  readonly times: readonly Seconds[];
  readonly scheduled: readonly Kelvin[];
  readonly sensors: readonly (readonly Kelvin[])[];
  readonly fallsBehindAt: Seconds | null;
}

/**
 * Names the segment in which a kiln falls behind its schedule, and the temperature it had reached; null if it keeps up, or
 * if that step asks only for what the kiln can.
 *
 * The segment is the one the schedule was in by then; the temperature is the coldest sensor's.
 */
export function fallsBehind(course: ComputedCourse, schedule: Schedule): FallsBehind | null {
  const at = course.fallsBehindAt;
  if (at === null) return null;
  const index = Math.max(
    course.times.findLastIndex((time) => time <= at),
    0,
  );
  const coldest = (i: number): number => Math.min(...course.sensors.map((sensor) => sensor[i]));
  let segment = 0;
  let from = course.scheduled[0];
  for (let i = 0; i <= index && segment < schedule.segments.length - 1; i++) {
    const { target } = schedule.segments[segment];
    const there = target >= from ? course.scheduled[i] >= target - 0.5 : course.scheduled[i] <= target + 0.5;
    if (!there) continue;
    from = target;
    segment++;
  }
  const { rate } = schedule.segments[segment];
  return rate === "full" ? null : { at, segment, rate, temperature: coldest(index) };
}
