import type { Standing } from "#engine/advising";
import { checkLoad } from "#engine/checks";
import { shelvesFromBottom, type Load, type PlacedPiece, type Setting } from "#engine/kiln";
import { withLayers } from "./setting-layers.ts";

/** A change of a setting that may narrow its spread; its forecast tells. */
export interface SettingMove {
  readonly id: string;
  readonly kind: "exchange ware" | "reorder layers" | "take out a layer" | "exchange pieces" | "take out pieces";
  readonly pieceIds: readonly string[];
  readonly takesOut: readonly string[];
  readonly setting: Setting;
}

/** Pieces on the hottest piece's shelf that are tried as partners of the coldest one. */
const mostPartners = 6;

/**
 * Moves worth computing when no schedule serves every piece, those that keep all ware first: the ware of the coldest
 * and the hottest shelf exchanged, the coldest layer in the middle, the coldest piece exchanged with one on the hottest
 * shelf; then the pieces that cannot be served taken out, and the emptiest layer beside the coldest taken out.
 *
 * Only moves that add no stop to the findings.
 *
 * @param leaveOut  the fewest pieces without which a schedule exists
 */
export function settingMoves(load: Load, standing: Standing, leaveOut: readonly string[]): readonly SettingMove[] {
  const { setting } = load;
  const cold = setting.pieces.find(({ pieceId }) => pieceId === standing.coldestPiece);
  const hot = setting.pieces.find(({ pieceId }) => pieceId === standing.hottestPiece);
  if (!cold || !hot) return [];
  const before = stopsOf(load, setting);
  const legal = (changed: Setting | null): changed is Setting => changed !== null && stopsOf(load, changed) <= before;
  const on = (shelfIds: readonly string[]): readonly string[] =>
    setting.pieces.filter(({ shelfId }) => shelfIds.includes(shelfId)).map(({ pieceId }) => pieceId);
  const order = shelvesFromBottom(setting).map(({ id }) => id);
  const moves: SettingMove[] = [];
  if (cold.shelfId !== hot.shelfId) {
    const exchanged = exchangeWare(setting, cold.shelfId, hot.shelfId);
    if (legal(exchanged)) {
      moves.push({
        id: "exchange-ware",
        kind: "exchange ware",
        pieceIds: on([cold.shelfId, hot.shelfId]),
        takesOut: [],
        setting: exchanged,
      });
    }
  }
  const reordered = intoMiddle(order, cold.shelfId)
    .map((each) => withLayers(load, each))
    .find(legal);
  if (reordered) {
    moves.push({
      id: "reorder-layers",
      kind: "reorder layers",
      pieceIds: on([cold.shelfId]),
      takesOut: [],
      setting: reordered,
    });
  }
  const partner =
    cold.shelfId === hot.shelfId
      ? undefined
      : partnersOf(load, cold, hot.shelfId).find((other) => legal(exchangePieces(setting, cold, other)));
  if (partner) {
    const pieceIds = [cold.pieceId, partner.pieceId];
    moves.push({
      id: "exchange-pieces",
      kind: "exchange pieces",
      pieceIds,
      takesOut: [],
      setting: exchangePieces(setting, cold, partner),
    });
  }
  if (leaveOut.length > 0 && leaveOut.length < setting.pieces.length) {
    const pieces = setting.pieces.filter(({ pieceId }) => !leaveOut.includes(pieceId));
    moves.push({
      id: "take-out-pieces",
      kind: "take out pieces",
      pieceIds: leaveOut,
      takesOut: leaveOut,
      setting: { ...setting, pieces },
    });
  }
  const emptiest = besides(order, cold.shelfId).toSorted((a, b) => on([a]).length - on([b]).length)[0];
  if (emptiest !== undefined && order.length > 2) {
    const without = withLayers(
      load,
      order.filter((id) => id !== emptiest),
    );
    const gone = on([emptiest]);
    if (legal(without))
      moves.push({ id: "take-out-layer", kind: "take out a layer", pieceIds: gone, takesOut: gone, setting: without });
  }
  return moves;
}

function stopsOf(load: Load, setting: Setting): number {
  return checkLoad({ ...load, setting }).findings.filter(({ level }) => level === "stop").length;
}

function exchangeWare(setting: Setting, a: string, b: string): Setting {
  const other = (shelfId: string): string => (shelfId === a ? b : shelfId === b ? a : shelfId);
  return {
    ...setting,
    pieces: setting.pieces.map((piece) => (piece.fixed ? piece : { ...piece, shelfId: other(piece.shelfId) })),
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

/** Orders with one layer moved, its new place nearest the middle first. */
function intoMiddle(order: readonly string[], id: string): readonly (readonly string[])[] {
  const rest = order.filter((each) => each !== id);
  const middle = rest.length / 2;
  return rest
    .map((_, i) => i + 1)
    .concat(0)
    .toSorted((a, b) => Math.abs(a - middle) - Math.abs(b - middle))
    .map((at) => rest.slice(0, at).concat(id, rest.slice(at)))
    .filter((each) => each.some((other, i) => other !== order[i]));
}

function besides(order: readonly string[], id: string): readonly string[] {
  const at = order.indexOf(id);
  return [order[at - 1], order[at], order[at + 1]].filter((each) => each !== undefined);
}

/** Lighter pieces of other shapes on a shelf, heaviest first: they take heat sooner, and fit where the cold one does not. */
function partnersOf(load: Load, cold: PlacedPiece, shelfId: string): readonly PlacedPiece[] {
  const shapeOf = ({ pieceId }: PlacedPiece): string | undefined => load.pieces.get(pieceId)?.shapeId;
  const massOf = (placed: PlacedPiece): number => load.shapes.get(shapeOf(placed) ?? "")?.mass ?? 0;
  return load.setting.pieces
    .filter(
      (piece) =>
        piece.shelfId === shelfId && !piece.fixed && shapeOf(piece) !== shapeOf(cold) && massOf(piece) < massOf(cold),
    )
    .toSorted((a, b) => massOf(b) - massOf(a))
    .slice(0, mostPartners);
}
