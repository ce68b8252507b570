import { requireThat } from "#base";
import { bracketedRoot } from "#engine/numerics";
import type { Schedule, Segment } from "#engine/kiln";
import type { Kelvin, KelvinPerSecond, Seconds } from "#engine/units";
import { idealPosition } from "./ideal-curve.ts";

/** The part of a schedule that the adviser changes: the segment that reaches its highest target. */
export interface ScheduleEnd {
  readonly target: Kelvin;
  readonly hold: Seconds;
  readonly rate: KelvinPerSecond | "full";
}

/** Which segment reaches the highest target. */
function peakIndex(segments: readonly Segment[]): number {
  requireThat(segments.length > 0, "segments.length", 0, "1 segment or more");
  return segments.reduce((best, segment, i) => (segment.target > segments[best].target ? i : best), 0);
}

export function endOf(schedule: Schedule): ScheduleEnd {
  return schedule.segments[peakIndex(schedule.segments)];
}

/** The schedule with another end; segments before it that would climb higher are held down to it. */
export function withEnd(schedule: Schedule, end: ScheduleEnd): Schedule {
  const peak = peakIndex(schedule.segments);
  return {
    ...schedule,
    segments: schedule.segments.map((segment, i) => {
      if (i === peak) return { rate: end.rate, target: end.target, hold: end.hold };
      return i < peak && segment.target > end.target ? { ...segment, target: end.target } : segment;
    }),
  };
}

const room = 293.15;
/** What "full" is taken for when two ends are compared; it cancels out. */
const fullRate = 150 / 3600;

/**
 * Target for another hold or rate that does the same heat work on an ideal kiln [K].
 *
 * Real ware follows a hold a little late, so the forecast corrects it; it saves runs.
 */
export function equalTarget(schedule: Schedule, from: ScheduleEnd, hold: Seconds, rate: ScheduleEnd["rate"]): Kelvin {
  const wanted = idealPosition(withEnd(schedule, from), room, fullRate);
  const miss = (target: number): number =>
    idealPosition(withEnd(schedule, { target, hold, rate }), room, fullRate) - wanted;
  const [low, high] = [from.target - 150, from.target + 100];
  if (miss(low) > 0 || miss(high) < 0) return from.target;
  return bracketedRoot(miss, low, high, 0.05);
}

/** How far the peak's segment climbs [K]. */
export function lastClimb(schedule: Schedule): number {
  const peak = peakIndex(schedule.segments);
  return schedule.segments[peak].target - (peak > 0 ? schedule.segments[peak - 1].target : room);
}
