import { checkLoad } from "#engine/checks";
import type { Standing } from "#engine/advising";
import type { Load, PlacedPiece, Setting } from "#engine/kiln";

/** A change of a setting that may narrow its spread; its forecast tells. */
export interface SettingMove {
  readonly id: string;
  readonly kind: "exchange shelves" | "exchange pieces" | "take out";
  readonly pieceIds: readonly string[];
  readonly takesOut: readonly string[];
  readonly setting: Setting;
}

/** Pieces on the hottest piece's shelf that are tried as partners of the coldest one. */
const mostPartners = 6;

/**
 * Moves worth computing when no schedule serves every piece, most promising first: exchange the ware of the coldest
 * and the hottest piece's shelves, exchange the coldest piece with one there, take out the pieces that cannot be served.
 *
 * Only moves that break no rule the setting keeps now; ware of like height and foot makes them possible at all.
 *
 * @param leaveOut  the fewest pieces without which a schedule exists
 */
export function settingMoves(load: Load, standing: Standing, leaveOut: readonly string[]): readonly SettingMove[] {
  const { setting } = load;
  const cold = setting.pieces.find(({ pieceId }) => pieceId === standing.coldestPiece);
  const hot = setting.pieces.find(({ pieceId }) => pieceId === standing.hottestPiece);
  const moves: SettingMove[] = [];
  const stops = stopsOf(load, setting);
  const legal = (changed: Setting): boolean => stopsOf(load, changed) <= stops;
  if (cold && hot && cold.shelfId !== hot.shelfId) {
    const exchanged = exchangeShelves(setting, cold.shelfId, hot.shelfId);
    if (legal(exchanged)) {
      const pieceIds = setting.pieces
        .filter(({ shelfId }) => shelfId === cold.shelfId || shelfId === hot.shelfId)
        .map(({ pieceId }) => pieceId);
      moves.push({ id: "exchange-shelves", kind: "exchange shelves", pieceIds, takesOut: [], setting: exchanged });
    }
    const partner = partnersOf(load, cold, hot.shelfId).find((other) => legal(exchangePieces(setting, cold, other)));
    if (partner) {
      const pieceIds = [cold.pieceId, partner.pieceId];
      const exchangedPieces = exchangePieces(setting, cold, partner);
      moves.push({ id: "exchange-pieces", kind: "exchange pieces", pieceIds, takesOut: [], setting: exchangedPieces });
    }
  }
  if (leaveOut.length > 0 && leaveOut.length < setting.pieces.length) {
    const pieces = setting.pieces.filter(({ pieceId }) => !leaveOut.includes(pieceId));
    const without = { ...setting, pieces };
    moves.push({ id: "take-out", kind: "take out", pieceIds: leaveOut, takesOut: leaveOut, setting: without });
  }
  return moves;
}

function stopsOf(load: Load, setting: Setting): number {
  return checkLoad({ ...load, setting }).findings.filter(({ level }) => level === "stop").length;
}

function exchangeShelves(setting: Setting, a: string, b: string): Setting {
  const other = (shelfId: string): string => (shelfId === a ? b : shelfId === b ? a : shelfId);
  return {
    ...setting,
    pieces: setting.pieces.map((piece) => ({ ...piece, shelfId: piece.fixed ? piece.shelfId : other(piece.shelfId) })),
  };
}

function exchangePieces(setting: Setting, a: PlacedPiece, b: PlacedPiece): Setting {
  const put = (piece: PlacedPiece, where: PlacedPiece): PlacedPiece => ({ ...where, pieceId: piece.pieceId });
  return {
    ...setting,
    pieces: setting.pieces.map((piece) => {
      if (piece.pieceId === a.pieceId) return put(a, b);
      return piece.pieceId === b.pieceId ? put(b, a) : piece;
    }),
  };
}

/** Pieces of other shapes on a shelf, nearest in mass to the cold one's from below: lighter ware takes heat sooner. */
function partnersOf(load: Load, cold: PlacedPiece, shelfId: string): readonly PlacedPiece[] {
  const massOf = ({ pieceId }: PlacedPiece): number => {
    const piece = load.pieces.get(pieceId);
    return (piece && load.shapes.get(piece.shapeId)?.mass) ?? 0;
  };
  const shapeOf = ({ pieceId }: PlacedPiece): string | undefined => load.pieces.get(pieceId)?.shapeId;
  const own = massOf(cold);
  return load.setting.pieces
    .filter(
      (piece) => piece.shelfId === shelfId && !piece.fixed && shapeOf(piece) !== shapeOf(cold) && massOf(piece) < own,
    )
    .toSorted((a, b) => massOf(b) - massOf(a))
    .slice(0, mostPartners);
}
