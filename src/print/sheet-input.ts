import type { Forecast } from "#engine/firing";
import type { Load, Schedule } from "#engine/kiln";
import type { DayNumber, Seconds } from "#engine/units";
import { dayNumberOf, loadOf, pieceNumbers, scheduleOf, type PieceNumber } from "#work";
import type { SettingRecord, StudioDocument } from "#records";
import type { UnitPreference } from "#words";
import type { Paper } from "./paper.ts";

/** All that a loader's sheet shows. */
export interface SheetInput {
  readonly load: Load;
  /** Number of every piece on its shelf: the same as on screens. */
  readonly numbers: ReadonlyMap<string, PieceNumber>;
  /** Names of the parties, by id. */
  readonly parties: ReadonlyMap<string, string>;
  readonly settingName: string;
  readonly schedule: Schedule;
  /** Day of the firing, or null while none is set. */
  readonly day: DayNumber | null;
  /** When heating starts [s after midnight of `day`], or null while none is set. */
  readonly startsAt: Seconds | null;
  readonly forecast: Forecast | null;
  /** Stops that stand against this setting: printed, so that nobody loads it unaware. */
  readonly stops: number;
  readonly units: UnitPreference;
  readonly paper: Paper;
  /** Large: one shelf a page, its plan as big as fits. */
  readonly plans: "usual" | "large";
}

/** What the caller adds to a saved setting. */
export interface SheetChoices {
  readonly forecast: Forecast | null;
  readonly stops: number;
  readonly units?: UnitPreference;
  readonly paper?: Paper;
  readonly plans?: "usual" | "large";
}

/**
 * The sheet of a saved setting. Units and paper are the studio's unless chosen.
 *
 * @throws RangeError if the setting refers to records that are not in the document
 */
export function sheetOf(document: StudioDocument, setting: SettingRecord, choices: SheetChoices): SheetInput {
  return {
    load: loadOf(document, setting),
    numbers: pieceNumbers(document, setting.setting),
    parties: new Map(document.parties.map(({ id, name }) => [id, name])),
    settingName: setting.name,
    schedule: scheduleOf(document, setting),
    day: dayNumberOf(setting.day),
    startsAt: setting.startsAt,
    forecast: choices.forecast,
    stops: choices.stops,
    units: choices.units ?? document.studio.units,
    paper: choices.paper ?? document.studio.paper,
    plans: choices.plans ?? "usual",
  };
}
