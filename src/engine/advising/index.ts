export type { Advice, AdviceRequest, AdviserRun, FiringOutcome, ForecastFor, Move, MoveGain } from "./advice.ts";
export { adviseSchedule } from "./adviser.ts";
export { attainableRate } from "./attainable-rate.ts";
export { idealCurve, idealPosition, type IdealCurve } from "./ideal-curve.ts";
export { noteKeys, type Note, type NoteKey } from "./note.ts";
export {
  fewestToLeaveOut,
  standingOf,
  temperatureOf,
  type PieceNeed,
  type PieceOutcome,
  type PieceWish,
  type Standing,
} from "./room-between.ts";
export { endOf, withEnd, type ScheduleEnd } from "./schedule-end.ts";
export {
  fallsBehind,
  scheduleFaults,
  type ComputedCourse,
  type FallsBehind,
  type ScheduleFault,
} from "./schedule-limits.ts";
export { startOptions, type Attendance, type FiringLength, type StartOption, type StartWish } from "./start-time.ts";
export {
  startingSchedules,
  type BeyondKiln,
  type ReasonedSegment,
  type StartingSchedule,
  type WareToFire,
} from "./starting-schedules.ts";
export {
  costOf,
  priceAt,
  type Cost,
  type PowerTrace,
  type StudioTime,
  type Tariff,
  type TariffBand,
} from "./tariff.ts";
