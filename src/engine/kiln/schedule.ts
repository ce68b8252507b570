import type { Kelvin, KelvinPerSecond, Seconds } from "#engine/units";

/** One step of a schedule: go to `target` at `rate`, then hold. */
export interface Segment {
  /** Size of the slope towards the target, > 0, or as fast as the kiln can. Downwards it is controlled cooling. */
  readonly rate: KelvinPerSecond | "full";
  readonly target: Kelvin;
  readonly hold: Seconds;
}

/** Segments in order, starting from room temperature. After the last one the power is off. */
export interface Schedule {
  readonly id: string;
  readonly name: string;
  readonly segments: readonly Segment[];
}
