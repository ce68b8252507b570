import type { FiringClass, Load, Piece, Schedule, Shape } from "#engine/kiln";
import { kilnOf, type PieceRecord, type SettingRecord, type StudioDocument } from "#records";
import { dayNumberOf } from "./day.ts";

export function pieceOf(record: PieceRecord): Piece {
  return { ...record, promised: dayNumberOf(record.promised) };
}

/** The records a setting needs, joined for the engine. The document's references are valid (see `readStudio`). */
export function loadOf(document: StudioDocument, setting: SettingRecord): Load {
  const kiln = found(document.kilns, setting.kilnId, "kiln");
  return {
    kiln: kilnOf(kiln),
    furniture: found(document.furniture, kiln.furnitureId, "furniture"),
    firingClass: found(document.classes, setting.classId, "class") satisfies FiringClass,
    shapes: new Map<string, Shape>(document.shapes.map((shape) => [shape.id, shape])),
    pieces: new Map(document.pieces.map((piece) => [piece.id, pieceOf(piece)])),
    setting: setting.setting,
  };
}

export function scheduleOf(document: StudioDocument, setting: SettingRecord): Schedule {
  return found(document.schedules, setting.scheduleId, "schedule");
}

/** @throws RangeError naming what is missing: the document was not validated. */
export function found<Each extends { readonly id: string }>(records: readonly Each[], id: string, what: string): Each {
  const record = records.find((each) => each.id === id);
  if (!record) throw new RangeError(`${what} "${id}" is not in this studio`);
  return record;
}
