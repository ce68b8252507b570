import type { Schedule } from "#engine/kiln";

/** How near to its target a sensor must be for a hold to begin [K]. */
const arrived = 2;

/**
 * Where a schedule stands: the set point by time, and when holds begin.
 *
 * The set point climbs at the segment's rate whether or not the kiln keeps up; a hold begins only once the furthest
 * sensor has come within 2 K of the target, as a controller with guaranteed hold does.
 */
export class Program {
  segment = 0;
  phase: "slope" | "wait" | "hold" | "done" = "slope";
  private from: number;
  private since = 0;
  /** When the present phase ends by itself, or infinity while waiting for the kiln. */
  ends = 0;

  constructor(
    private readonly schedule: Schedule,
    start: number,
  ) {
    this.from = start;
    this.enter(0, 0);
  }

  private enter(segment: number, time: number): void {
    this.segment = segment;
    this.since = time;
    const now = this.schedule.segments[segment];
    if (!now) {
      this.phase = "done";
      this.ends = Infinity;
      return;
    }
    if (now.rate === "full" || now.target === this.from) {
      this.phase = "wait";
      this.ends = Infinity;
    } else {
      this.phase = "slope";
      this.ends = time + Math.abs(now.target - this.from) / now.rate;
    }
  }

  /** [K] */
  setPoint(time: number): number {
    const now = this.schedule.segments[this.segment];
    if (!now) return this.from;
    if (this.phase !== "slope") return now.target;
    const along = Math.min(Math.max((time - this.since) / (this.ends - this.since), 0), 1);
    return this.from + (now.target - this.from) * along;
  }

  /** Slope of the set point [K/s]. */
  get slope(): number {
    const now = this.schedule.segments[this.segment];
    if (!now || this.phase !== "slope" || now.rate === "full") return 0;
    return now.target > this.from ? now.rate : -now.rate;
  }

  /** True while the set point climbs or waits above the kiln at a rate the schedule names. */
  get hasRate(): boolean {
    const now = this.schedule.segments[this.segment];
    return now !== undefined && now.rate !== "full" && this.phase !== "hold";
  }

  /**
   * Moves on, knowing the furthest sensor's reading at the last two instants.
   *
   * @returns true if the phase changed
   */
  advance(before: { time: number; reading: number }, after: { time: number; reading: number }): boolean {
    const now = this.schedule.segments[this.segment];
    if (!now) return false;
    if (this.phase === "slope" && after.time >= this.ends - 1e-6) {
      this.phase = "wait";
      this.since = this.ends;
      this.ends = Infinity;
      this.wait(before, after, now.target);
      return true;
    }
    if (this.phase === "wait") return this.wait(before, after, now.target);
    if (this.phase === "hold" && after.time >= this.ends - 1e-6) {
      this.from = now.target;
      this.enter(this.segment + 1, this.ends);
      return true;
    }
    return false;
  }

  private wait(
    before: { time: number; reading: number },
    after: { time: number; reading: number },
    target: number,
  ): boolean {
    const missing = this.missing(after.reading, target);
    if (missing > arrived) return false;
    const missed = this.missing(before.reading, target);
    // Interpolated where the sensor came near during the step, so that the end does not hang on the step's length.
    const share = missed > arrived ? (missed - arrived) / (missed - missing) : 1;
    const at = Math.max(before.time + share * (after.time - before.time), this.since);
    this.phase = "hold";
    this.ends = Math.max(at + this.schedule.segments[this.segment].hold, after.time);
    return true;
  }

  /** When a kiln that is waited for should arrive, by its last speed [s]; infinity if it is not waited for. */
  arrival(before: { time: number; reading: number }, after: { time: number; reading: number }): number {
    const now = this.schedule.segments[this.segment];
    if (!now || this.phase !== "wait") return Infinity;
    const missing = this.missing(after.reading, now.target);
    const speed = (this.missing(before.reading, now.target) - missing) / (after.time - before.time);
    return speed > 0 ? after.time + Math.max((missing - arrived) / speed, 20) : Infinity;
  }

  private missing(reading: number, target: number): number {
    return target >= this.from ? target - reading : reading - target;
  }

  /** The reading that is furthest from the target: the one the hold waits for. */
  furthest(readings: readonly number[]): number {
    const now = this.schedule.segments[this.segment];
    return now && now.target < this.from ? Math.max(...readings) : Math.min(...readings);
  }
}
