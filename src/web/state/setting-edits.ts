import { applyRemedy, type Remedy } from "#engine/checks";
import { placeFootprint, roomInside, type Placement } from "#engine/geometry";
import { shelfTypeOf, type Load, type PlacedPiece, type PlacedPost, type PlacedShelf } from "#engine/kiln";
import type { Metres } from "#engine/units";
import type { SettingRecord } from "#records";

/** Changes of a setting, each giving a new record: the store remembers how to take them back. */

type SettingBody = SettingRecord["setting"];
type Pieces = SettingBody["pieces"];

function withPieces(record: SettingRecord, pieces: Pieces): SettingRecord {
  return { ...record, setting: { ...record.setting, pieces } };
}

/** The piece at another place, or put into the setting if it was not in it. It stays fixed if it was. */
export function pieceAt(record: SettingRecord, pieceId: string, shelfId: string, at: Placement): SettingRecord {
  const { pieces } = record.setting;
  const old = pieces.find((each) => each.pieceId === pieceId);
  const placed = { pieceId, shelfId, x: at.x, y: at.y, angle: at.angle, fixed: old?.fixed ?? false };
  return withPieces(record, old ? pieces.map((each) => (each === old ? placed : each)) : [...pieces, placed]);
}

/** Two pieces with their places changed; each keeps its own turn. */
export function piecesSwapped(record: SettingRecord, firstId: string, secondId: string): SettingRecord {
  const { pieces } = record.setting;
  const first = pieces.find((each) => each.pieceId === firstId);
  const second = pieces.find((each) => each.pieceId === secondId);
  if (!first || !second) return record;
  const at = (piece: PlacedPiece, spot: PlacedPiece): Pieces[number] => ({
    ...piece,
    shelfId: spot.shelfId,
    x: spot.x,
    y: spot.y,
  });
  return withPieces(
    record,
    pieces.map((each) => (each === first ? at(first, second) : each === second ? at(second, first) : each)),
  );
}

/** The setting without these pieces: they go back to the bench. */
export function piecesOut(record: SettingRecord, pieceIds: readonly string[]): SettingRecord {
  const out = new Set(pieceIds);
  return withPieces(
    record,
    record.setting.pieces.filter((each) => !out.has(each.pieceId)),
  );
}

/** The piece kept where it is when a setting is proposed again, or let go. */
export function pieceFixed(record: SettingRecord, pieceId: string, fixed: boolean): SettingRecord {
  return withPieces(
    record,
    record.setting.pieces.map((each) => (each.pieceId === pieceId ? { ...each, fixed } : each)),
  );
}

/** The setting with a finding's remedy applied; null where it cannot be any more. */
export function remedyApplied(record: SettingRecord, load: Load, remedy: Remedy): SettingRecord | null {
  const setting = applyRemedy(load, remedy);
  return setting && { ...record, setting: setting as SettingBody };
}

/** Two lengths that are meant to be the same, however they were added up [m]. */
const same = 0.002;

/** Where a stack of posts stands: the shelf below it, or null for the floor. */
export function standsOn(load: Load, shelf: PlacedShelf, post: PlacedPost): PlacedShelf | null {
  const foot = shelf.z - shelfTypeOf(load, shelf).thickness - sum(post.lengths);
  const below = load.setting.shelves.find(
    (other) => other.id !== shelf.id && Math.abs(other.z - foot) < same && covers(load, other, post.x, post.y),
  );
  return below ?? null;
}

function covers(load: Load, shelf: PlacedShelf, x: Metres, y: Metres): boolean {
  const dx = x - shelf.x;
  const dy = y - shelf.y;
  const cos = Math.cos(shelf.angle);
  const sin = Math.sin(shelf.angle);
  const point = { x: cos * dx + sin * dy, y: cos * dy - sin * dx, angle: 0, halfX: 0, halfY: 0, radius: 0 };
  return roomInside(shelfTypeOf(load, shelf).outline, placeFootprint([point], { x: 0, y: 0, angle: 0 })) > -same;
}

function sum(lengths: readonly Metres[]): Metres {
  return lengths.reduce((total, length) => total + length, 0);
}
