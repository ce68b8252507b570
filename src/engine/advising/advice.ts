import type { Schedule } from "#engine/kiln";
import type { Joules, Kelvin, KelvinDifference, KelvinPerSecond, Seconds } from "#engine/units";
import type { PieceOutcome, PieceWish, Standing } from "./room-between.ts";
import type { ScheduleEnd } from "./schedule-end.ts";

/** What the adviser needs to know of one computed firing. */
export interface FiringOutcome {
  readonly pieces: readonly PieceOutcome[];
  /** To the end of heating. */
  readonly heating: Seconds;
  readonly energy: Joules;
  /** Price of the electricity, where a tariff and a start are known. */
  readonly cost?: number;
}

/** Computes a firing; for one setting and kiln, so that the exchange of heat need be traced only once. */
export type ForecastFor = (schedule: Schedule) => FiringOutcome | Promise<FiringOutcome>;

/** A change of the setting that might help, with its own forecast. */
export interface Move {
  readonly id: string;
  readonly pieceIds: readonly string[];
  /** Pieces the move takes out of the load: their wishes no longer count. */
  readonly takesOut: readonly string[];
  readonly forecastFor: ForecastFor;
}

export interface AdviceRequest {
  /** Its highest segment's target, hold and, if need be, rate are to be found; the rest stays. */
  readonly schedule: Schedule;
  readonly wishes: readonly PieceWish[];
  readonly forecastFor: ForecastFor;
  readonly least: "time" | "energy" | "cost";
  /** Highest target allowed: the kiln's limit. */
  readonly maxTemperature: Kelvin;
  readonly longestHold: Seconds;
  /** Rates of the end to try, fastest first; left out: the schedule's own and half of it. */
  readonly endRates?: readonly KelvinPerSecond[];
  /** Kept free inside every piece's range [cones]. */
  readonly margin: number;
  /** Moves to try when no schedule does, given what limits; the first few are computed. */
  readonly moves?: (standing: Standing) => readonly Move[];
}

/** One computed firing of the search. */
export interface AdviserRun {
  readonly end: ScheduleEnd;
  readonly outcome: FiringOutcome;
  readonly standing: Standing;
}

/** What a move would change, computed. */
export interface MoveGain {
  readonly move: Pick<Move, "id" | "pieceIds" | "takesOut">;
  /** What remains to be mended afterwards [K]; 0 or less: a schedule exists. */
  readonly excess: KelvinDifference;
  /** How much less that is [K]. */
  readonly gain: KelvinDifference;
}

export type Advice =
  | {
      readonly kind: "found";
      readonly schedule: Schedule;
      readonly best: AdviserRun;
      readonly runs: readonly AdviserRun[];
    }
  | {
      readonly kind: "impossible";
      /** The least bad schedule: what is lacking and what is too much shared evenly. */
      readonly schedule: Schedule;
      readonly best: AdviserRun;
      /** Difference that no target can mend, at the hold and rate where it is smallest [K]. */
      readonly excess: KelvinDifference;
      /** The same at a clearly different target: nearly equal, or the proof does not hold [K]. */
      readonly excessAtOtherTarget: KelvinDifference;
      /** Smallest spread reached, hottest less coldest point over the ware [cones]. */
      readonly spread: number;
      /** Widest spread that the wishes of the two limiting pieces allow [cones]. */
      readonly allowed: number;
      /** The fewest pieces to leave out so that a schedule exists. */
      readonly leaveOut: readonly string[];
      /** Moves that were computed, best first: by gain for each piece that then has to wait. */
      readonly moves: readonly MoveGain[];
      /** What bound: pieces too far apart, or a target above the kiln's limit. */
      readonly bound: "spread" | "kiln";
      readonly runs: readonly AdviserRun[];
    };
