export { classKind, type ClassRecord } from "./class-record.ts";
export { furnitureKind, type FurnitureRecord } from "./furniture-record.ts";
export { kilnKind, kilnOf, usualKilnFields, usualLining, type KilnRecord } from "./kiln-record.ts";
export { partyKind, type PartyRecord } from "./party-record.ts";
export { pieceKind, type PieceRecord } from "./piece-record.ts";
export { readRecord, shortened, type Migration, type Problem, type RecordKind } from "./record-kind.ts";
export { scheduleKind, type ScheduleRecord } from "./schedule-record.ts";
export { settingKind, type SettingRecord } from "./setting-record.ts";
export { shapeKind, type ShapeRecord } from "./shape-record.ts";
export { studioKind, type StudioRecord } from "./studio-record.ts";
export {
  brokenReferences,
  collectionNames,
  collections,
  kindOf,
  readStudio,
  studioDocumentSchema,
  studioJsonSchema,
  type AnyRecord,
  type CollectionName,
  type StudioDocument,
} from "./studio-document.ts";
