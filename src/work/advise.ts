import { failure, success, type Outcome, type RunControl } from "#base";
import {
  adviseSchedule,
  costOf,
  fewestToLeaveOut,
  type Advice,
  type FiringOutcome,
  type Move,
  type PieceWish,
} from "#engine/advising";
import { prepareFiring, runFiring, type Forecast, type Grade, type PreparedFiring } from "#engine/firing";
import { conePositionOf } from "#engine/heatwork";
import type { Load, Schedule } from "#engine/kiln";
import type { RayTracer } from "#engine/radiation";
import type { Seconds } from "#engine/units";
import type { SettingRecord, StudioDocument } from "#records";
import { firingFailureInWords, usualSeed } from "./forecast.ts";
import { loadOf, scheduleOf } from "./load-of-setting.ts";
import { settingMoves, type SettingMove } from "./setting-moves.ts";
import { startOf } from "./time-and-money.ts";
import { faultOf, type WorkFailure } from "./work-failure.ts";

export interface AdviseRequest {
  readonly grade: Grade;
  readonly least: "time" | "energy" | "cost";
  /** Longest hold someone is willing to wait [s]. */
  readonly longestHold: Seconds;
  /** Kept free inside every piece's range [cones]. */
  readonly margin: number;
}

/** What is asked for when nobody says otherwise: the answer to act on, in the least time, holds up to two hours. */
export const usualAdviseRequest: AdviseRequest = { grade: "full", least: "time", longestHold: 7200, margin: 0.05 };

/** Advice on the schedule of a setting. */
export interface ScheduleAdvice {
  readonly advice: Advice;
  /** The computed firing of the advised schedule. */
  readonly forecast: Forecast;
  /** The moves that were computed, with the settings they lead to. */
  readonly moves: readonly SettingMove[];
}

/** Carries a firing that cannot be computed out of the search. */
class CannotFire extends Error {
  constructor(readonly inWords: WorkFailure) {
    super(inWords.error);
  }
}

/**
 * Finds the end of a setting's schedule that suits every piece, or proves that there is none and says what would help.
 *
 * The exchange of heat is traced once for the setting, and once more for each move that is tried.
 *
 * @throws Cancelled when `control` asks to stop
 */
export async function advise(
  document: StudioDocument,
  setting: SettingRecord,
  request: AdviseRequest,
  control: RunControl,
  tracer?: RayTracer,
): Promise<Outcome<ScheduleAdvice, WorkFailure>> {
  const fault = faultOf(document, setting);
  if (fault) return failure(fault);
  const load = loadOf(document, setting);
  const wishes = wishesOf(load);
  if (wishes.length === 0) {
    return failure({ error: "There are no pieces in this setting.", remedy: "Put pieces on its shelves first." });
  }
  const forecasts = new Map<string, Forecast>();
  const tried: SettingMove[] = [];
  const quiet: RunControl = { ...control, progress: () => {} };
  const fired = (prepared: PreparedFiring, schedule: Schedule): Forecast => {
    const { roomTemperature, openingTemperature } = document.studio;
    const run = runFiring(prepared, schedule, { ambient: roomTemperature, openingTemperature }, quiet);
    if (!run.ok) throw new CannotFire(firingFailureInWords(run.failure));
    return run.value;
  };
  const outcomeOf = (forecast: Forecast): FiringOutcome => ({
    pieces: forecast.pieces.map(({ pieceId, heatwork: { coldest, hottest } }) => ({ pieceId, coldest, hottest })),
    heating: forecast.heatingEnds,
    energy: forecast.ledger.electric,
    cost: costOf({ times: forecast.times, power: forecast.power }, startOf(setting), document.studio.tariff).cost,
  });
  try {
    control.progress(0, "Tracing who sees whom");
    const prepared = prepareFiring(load, request.grade, usualSeed, quiet, { tracer });
    const advice = await adviseSchedule(
      {
        schedule: scheduleOf(document, setting),
        wishes,
        forecastFor: (schedule) => {
          const forecast = fired(prepared, schedule);
          forecasts.set(JSON.stringify(schedule.segments), forecast);
          return outcomeOf(forecast);
        },
        least: request.least,
        maxTemperature: load.kiln.maxTemperature,
        longestHold: request.longestHold,
        margin: request.margin,
        moves: (standing) => {
          tried.push(...settingMoves(load, standing, fewestToLeaveOut(standing)));
          return tried.map(({ id, pieceIds, takesOut, setting: moved }): Move => ({
            id,
            pieceIds,
            takesOut,
            forecastFor: (schedule) =>
              outcomeOf(
                fired(
                  prepareFiring({ ...load, setting: moved }, request.grade, usualSeed, quiet, { tracer }),
                  schedule,
                ),
              ),
          }));
        },
      },
      control,
    );
    const forecast = forecasts.get(JSON.stringify(advice.schedule.segments))!;
    return success({ advice, forecast, moves: tried });
  } catch (error) {
    if (error instanceof CannotFire) return failure(error.inWords);
    throw error;
  }
}

/** What the class wants of every piece of a load: its coldest and hottest point within the tolerance of its cone. */
export function wishesOf(load: Load): readonly PieceWish[] {
  const { cone, tolerance } = load.firingClass;
  const wanted = conePositionOf(cone);
  return load.setting.pieces.map(({ pieceId }) => ({
    pieceId,
    least: wanted + tolerance.colder,
    most: wanted + tolerance.hotter,
  }));
}
