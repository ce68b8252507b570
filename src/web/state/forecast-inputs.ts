import type { SettingRecord, StudioDocument } from "#records";

const texts = new WeakMap<object, string>();

/** A record as text, the same whatever the order of its keys; worked out once per object. */
function textOf(record: object): string {
  let text = texts.get(record);
  if (text === undefined) {
    text = JSON.stringify(record, (_key, value: unknown) =>
      typeof value === "object" && value !== null && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
        : value,
    );
    texts.set(record, text);
  }
  return text;
}

/** A text of all that a setting's forecast depends on: two equal texts have the same forecast. */
export function forecastInputs(document: StudioDocument, setting: SettingRecord): string {
  const kiln = document.kilns.find((each) => each.id === setting.kilnId);
  const placed = new Set(setting.setting.pieces.map((each) => each.pieceId));
  const pieces = document.pieces.filter((piece) => placed.has(piece.id));
  const shapes = new Set(pieces.map((piece) => piece.shapeId));
  const records: (object | undefined)[] = [
    setting.setting,
    kiln,
    document.furniture.find((each) => each.id === kiln?.furnitureId),
    document.classes.find((each) => each.id === setting.classId),
    document.schedules.find((each) => each.id === setting.scheduleId),
    ...document.shapes.filter((shape) => shapes.has(shape.id)),
  ];
  const { roomTemperature, openingTemperature } = document.studio;
  // Of a piece only this matters to heat: who it is for and when does not.
  const ware = pieces.map((piece) => [piece.id, piece.shapeId, piece.stiltId, piece.state]);
  return [
    ...records.map((record) => (record ? textOf(record) : "")),
    JSON.stringify([ware, roomTemperature, openingTemperature]),
  ].join("\n");
}
