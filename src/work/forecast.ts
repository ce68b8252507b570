import { failure, success, type Outcome, type RunControl } from "#base";
import { engineVersion, forecastFiring, type FiringFailure, type Forecast, type Grade } from "#engine/firing";
import type { RayTracer } from "#engine/radiation";
import type { SettingRecord, StudioDocument } from "#records";
import { canonicalJson } from "./canonical-json.ts";
import { loadOf, scheduleOf } from "./load-of-setting.ts";
import { faultOf, type WorkFailure } from "./work-failure.ts";

/** One-way digest of a text, given by the host: 128 bits or more, so that two inputs never share a key. */
export type Hash = (text: string) => string;

/** What the host lends to a forecast. */
export interface ForecastHost {
  readonly hash: Hash;
  /** Finds what each ray hits; left out: the plain tracer, four times slower. */
  readonly tracer?: RayTracer;
}

export interface KeyedForecast {
  readonly forecast: Forecast;
  readonly key: string;
}

/** Every forecast is made with this seed unless a study asks for another: the same setting always gives the same one. */
export const usualSeed = 1;

/**
 * The computed firing of a setting as it stands, saved or not, with the key it can be kept under.
 *
 * @throws Cancelled when `control` asks to stop
 */
export function forecast(
  document: StudioDocument,
  setting: SettingRecord,
  grade: Grade,
  { hash, tracer }: ForecastHost,
  control: RunControl,
): Outcome<KeyedForecast, WorkFailure> {
  const fault = faultOf(document, setting);
  if (fault) return failure(fault);
  const { roomTemperature, openingTemperature } = document.studio;
  const options = { grade, seed: usualSeed, ambient: roomTemperature, openingTemperature, tracer };
  const computed = forecastFiring(loadOf(document, setting), scheduleOf(document, setting), options, control);
  if (!computed.ok) return failure(firingFailureInWords(computed.failure));
  return success({ forecast: computed.value, key: forecastKey(document, setting, grade, hash) });
}

/**
 * Key of a forecast: a hash of all it depends on, and of nothing else.
 *
 * @throws RangeError if the setting refers to records that are not in the document
 */
export function forecastKey(document: StudioDocument, setting: SettingRecord, grade: Grade, hash: Hash): string {
  const load = loadOf(document, setting);
  const pieces = setting.setting.pieces.map(({ pieceId }) => load.pieces.get(pieceId)!);
  const shapeIds = [...new Set(pieces.map((piece) => piece.shapeId))].sort();
  const { roomTemperature, openingTemperature } = document.studio;
  return hash(
    canonicalJson({
      engineVersion,
      seed: usualSeed,
      grade,
      kiln: load.kiln,
      furniture: load.furniture,
      firingClass: load.firingClass,
      schedule: scheduleOf(document, setting).segments,
      setting: setting.setting,
      shapes: shapeIds.map((id) => load.shapes.get(id)),
      // Of a piece only this matters to heat: who it is for and by when does not.
      pieces: pieces.map(({ id, shapeId, stiltId, state }) => [id, shapeId, stiltId, state]),
      roomTemperature,
      openingTemperature,
    }),
  );
}

/** Why a firing could not be computed, in plain words, and what to do. */
export function firingFailureInWords(fault: FiringFailure): WorkFailure {
  switch (fault.kind) {
    case "bad-schedule":
      return { error: fault.message, remedy: `Correct step ${fault.segment + 1} of the schedule.` };
    case "cannot-reach":
      return { error: fault.message, remedy: "Take a schedule with a lower end, or take ware out of the kiln." };
    case "does-not-balance":
    case "no-solution":
      return { error: fault.message, remedy: "Your studio is unchanged. Try the other grade meanwhile." };
  }
}
