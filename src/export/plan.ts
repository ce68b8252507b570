import type { Forecast } from "#engine/firing";
import type { Load } from "#engine/kiln";
import type { SettingRecord, StudioDocument } from "#records";
import {
  heatOfPieces,
  loadOf,
  pieceNumbers,
  timeAndMoney,
  type PieceHeat,
  type PieceNumber,
  type TimeAndMoney,
} from "#work";

/** A setting with all the names and numbers that the files made of it show. */
export interface Plan {
  readonly settingId: string;
  readonly settingName: string;
  readonly load: Load;
  /** Number of every piece on its shelf: the same as on screens and sheet. */
  readonly numbers: ReadonlyMap<string, PieceNumber>;
  readonly partyOf: (pieceId: string) => string;
  /** Promised day of a piece, ISO 8601. */
  readonly promisedOf: (pieceId: string) => string;
  readonly forecast: {
    readonly grade: Forecast["grade"];
    readonly heats: ReadonlyMap<string, PieceHeat>;
    readonly when: TimeAndMoney;
  } | null;
}

/** @throws RangeError if the setting refers to records that are not in the document */
export function planOf(document: StudioDocument, setting: SettingRecord, forecast: Forecast | null): Plan {
  const load = loadOf(document, setting);
  const parties = new Map(document.parties.map(({ id, name }) => [id, name]));
  const pieces = new Map(document.pieces.map((piece) => [piece.id, piece]));
  return {
    settingId: setting.id,
    settingName: setting.name,
    load,
    numbers: pieceNumbers(document, setting.setting),
    partyOf: (pieceId) => parties.get(pieces.get(pieceId)?.partyId ?? "") ?? "",
    promisedOf: (pieceId) => pieces.get(pieceId)?.promised ?? "",
    forecast: forecast && {
      grade: forecast.grade,
      heats: heatOfPieces(forecast, load.firingClass),
      when: timeAndMoney(document, setting, forecast),
    },
  };
}
