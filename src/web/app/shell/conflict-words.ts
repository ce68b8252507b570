import type { PieceRecord, SettingRecord, StudioDocument } from "#records";
import { sameJson, type ConflictQuestion, type SavedRecord } from "#web/state";
import { dayWords, countWords } from "../words.ts";

export interface ConflictText {
  readonly title: string;
  readonly mine: readonly string[];
  readonly theirs: readonly string[];
}

/** What differs between the two versions of a record, in words. */
export function conflictText(question: ConflictQuestion, document: StudioDocument, today: string): ConflictText {
  const { mine, theirs } = question;
  const record = mine ?? theirs;
  const title = record ? titleOf(question.place, record, document) : question.id;
  return {
    title,
    mine: side(question, mine, theirs, document, today),
    theirs: side(question, theirs, mine, document, today),
  };
}

function titleOf(place: ConflictQuestion["place"], record: SavedRecord, document: StudioDocument): string {
  if (place === "pieces") {
    const piece = record as PieceRecord;
    const shape = document.shapes.find((each) => each.id === piece.shapeId)?.name ?? "piece";
    const party = document.parties.find((each) => each.id === piece.partyId)?.name;
    return party ? `${shape}, ${party}` : shape;
  }
  if (place === "settings") {
    const setting = record as SettingRecord;
    const kiln = document.kilns.find((each) => each.id === setting.kilnId)?.name;
    return `Setting ${setting.name}${kiln ? ` in ${kiln}` : ""}`;
  }
  const { name } = record as { name?: string };
  return name ?? record.id;
}

function side(
  { place }: ConflictQuestion,
  record: SavedRecord | null,
  other: SavedRecord | null,
  document: StudioDocument,
  today: string,
): readonly string[] {
  if (record === null) return ["Removed"];
  if (other === null) return ["Kept"];
  if (place === "settings") return settingDifferences(record as SettingRecord, other as SettingRecord);
  const lines: string[] = [];
  for (const [field, value] of Object.entries(record)) {
    if (sameJson(value, (other as unknown as Record<string, unknown>)[field])) continue;
    lines.push(fieldWords(field, value, document, today));
  }
  return lines;
}

function settingDifferences(setting: SettingRecord, other: SettingRecord): readonly string[] {
  const spots = new Map(other.setting.pieces.map((piece) => [piece.pieceId, piece]));
  const moved = setting.setting.pieces.filter(
    (piece) => spots.has(piece.pieceId) && !sameJson(piece, spots.get(piece.pieceId)),
  );
  const added = setting.setting.pieces.filter((piece) => !spots.has(piece.pieceId));
  const lines = [countWords(setting.setting.pieces.length, "piece")];
  if (moved.length > 0) lines.push(`${countWords(moved.length, "piece")} at another spot`);
  if (added.length > 0) lines.push(`${countWords(added.length, "piece")} only here`);
  if (!sameJson(setting.setting.shelves, other.setting.shelves)) lines.push("Shelves or posts differ");
  if (setting.day !== other.day) lines.push(`Fired on ${setting.day}`);
  return lines;
}

const fieldNames: Readonly<Record<string, string>> = {
  promised: "Promised",
  partyId: "Party",
  shapeId: "Shape",
  classId: "Class",
  stiltId: "Stands on",
  held: "Held back",
  dryFrom: "Dry from",
  note: "Note",
  name: "Name",
  value: "Worth",
  state: "State",
};

function fieldWords(field: string, value: unknown, document: StudioDocument, today: string): string {
  const name = fieldNames[field] ?? field;
  const lists = { partyId: document.parties, shapeId: document.shapes, classId: document.classes } as const;
  if (field === "promised") return `${name}: ${dayWords(String(value), today)}`;
  if (field in lists) {
    const record = lists[field as keyof typeof lists].find((each) => each.id === value);
    return `${name}: ${record?.name ?? String(value)}`;
  }
  if (typeof value === "boolean") return `${name}: ${value ? "yes" : "no"}`;
  if (typeof value === "string" || typeof value === "number") return `${name}: ${value}`;
  return `${name} differs`;
}
