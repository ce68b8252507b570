import { useMemo } from "react";
import type { CheckResult } from "#engine/checks";
import type { Forecast } from "#engine/firing";
import { shelvesFromBottom, type Load, type PlacedShelf } from "#engine/kiln";
import type { ClassRecord, KilnRecord, SettingRecord, StudioDocument } from "#records";
import { useExposures, useForecast, useStudio, type ForecastView } from "#web/state";
import {
  check,
  coneRange,
  found,
  heatOfPieces,
  loadOf,
  pieceNumbers,
  type ConeRange,
  type PieceHeat,
  type PieceNumber,
} from "#work";
import type { UnitPreference } from "#words";
import { unitsOf } from "../words.ts";

/** A setting with all that is worked out from it, at once, in the browser. */
export interface SettingModel {
  readonly document: StudioDocument;
  readonly record: SettingRecord;
  readonly kiln: KilnRecord;
  readonly firingClass: ClassRecord;
  readonly load: Load;
  readonly units: UnitPreference;
  /** From the bottom up. */
  readonly shelves: readonly PlacedShelf[];
  readonly numbers: ReadonlyMap<string, PieceNumber>;
  /** The number on its shelf alone, for the drawings. */
  readonly plainNumbers: ReadonlyMap<string, number>;
  readonly check: CheckResult;
  /** The last forecast computed; null before the first. */
  readonly forecast: Forecast | null;
  /** It is of the setting exactly as it stands. */
  readonly isCurrent: boolean;
  /** A text of all that the forecast depends on. */
  readonly inputs: string;
  /** Null before the first forecast; may be of an earlier state of the setting. */
  readonly heats: ReadonlyMap<string, PieceHeat> | null;
  /** One cone axis for all drawings. */
  readonly range: ConeRange;
  readonly partyName: (pieceId: string) => string;
}

/** Kept apart: progress ticks many times while the model stays the same object, and nothing drawn from it is drawn anew. */
export interface SettingAndProgress {
  readonly model: SettingModel;
  readonly progress: Pick<ForecastView, "work" | "failure">;
}

/** Nothing was held against the rules: for screens that show no findings. */
const unchecked: CheckResult = { findings: [], kept: [], undecided: [], lookYourself: [] };

/** @param withCheck  false leaves the rules out, where many settings are shown and none is arranged */
export function useSettingModel(record: SettingRecord, withCheck: boolean = true): SettingAndProgress {
  const document = useStudio();
  const { forecast, isCurrent, inputs, work, failure } = useForecast(record);
  const load = useMemo(() => loadOf(document, record), [document, record]);
  const exposures = useExposures(withCheck ? load : null);
  const result = useMemo(
    () => (withCheck ? check(document, record, exposures) : unchecked),
    [document, record, exposures, withCheck],
  );
  const numbers = useMemo(() => pieceNumbers(document, record.setting), [document, record]);
  const firingClass = found(document.classes, record.classId, "class");
  const heats = useMemo(() => (forecast ? heatOfPieces(forecast, firingClass) : null), [forecast, firingClass]);
  const model = useMemo((): SettingModel => {
    const parties = new Map(document.parties.map(({ id, name }) => [id, name]));
    return {
      document,
      record,
      kiln: found(document.kilns, record.kilnId, "kiln"),
      firingClass,
      load,
      units: unitsOf(document),
      shelves: shelvesFromBottom(record.setting),
      numbers,
      plainNumbers: new Map([...numbers].map(([id, { number }]) => [id, number])),
      check: result,
      forecast,
      isCurrent,
      inputs,
      heats,
      range: coneRange(heats?.values() ?? [], firingClass.tolerance),
      partyName: (pieceId) => parties.get(load.pieces.get(pieceId)?.partyId ?? "") ?? "",
    };
  }, [document, record, firingClass, load, numbers, result, forecast, isCurrent, inputs, heats]);
  const progress = useMemo(() => ({ work, failure }), [work, failure]);
  return { model, progress };
}
