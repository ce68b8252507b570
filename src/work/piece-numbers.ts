import { shelvesFromBottom, type Setting } from "#engine/kiln";
import type { StudioDocument } from "#records";

/** Where a piece is called for: "shelf 1, no. 7". The same on every screen and sheet. */
export interface PieceNumber {
  readonly shelf: number;
  readonly number: number;
}

/**
 * The number of every piece of a setting on its shelf, counted from 1.
 *
 * Parties are runs: numbers follow the party's name, then the shape's, then the order of intake. Moving a piece on its
 * shelf changes no number; moving it to another shelf renumbers only the two.
 */
export function pieceNumbers(
  document: Pick<StudioDocument, "pieces" | "parties" | "shapes">,
  setting: Setting,
): ReadonlyMap<string, PieceNumber> {
  const pieces = new Map(document.pieces.map((piece) => [piece.id, piece]));
  const nameOf = (records: readonly { readonly id: string; readonly name: string }[]): ReadonlyMap<string, string> =>
    new Map(records.map(({ id, name }) => [id, name]));
  const parties = nameOf(document.parties);
  const shapes = nameOf(document.shapes);
  const numbers = new Map<string, PieceNumber>();
  shelvesFromBottom(setting).forEach((shelf, index) => {
    const onShelf = setting.pieces
      .filter(({ shelfId }) => shelfId === shelf.id)
      .map((placed) => {
        const piece = pieces.get(placed.pieceId);
        return {
          pieceId: placed.pieceId,
          party: parties.get(piece?.partyId ?? "") ?? "",
          shape: shapes.get(piece?.shapeId ?? "") ?? "",
        };
      })
      .sort((a, b) => compare(a.party, b.party) || compare(a.shape, b.shape) || compareIds(a.pieceId, b.pieceId));
    onShelf.forEach(({ pieceId }, place) => numbers.set(pieceId, { shelf: index + 1, number: place + 1 }));
  });
  return numbers;
}

/** By code point, the same on every machine. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** "mug-2" before "mug-10". */
function compareIds(a: string, b: string): number {
  const [, stemA = a, numberA = ""] = /^(.*?)(\d*)$/.exec(a) ?? [];
  const [, stemB = b, numberB = ""] = /^(.*?)(\d*)$/.exec(b) ?? [];
  return compare(stemA, stemB) || Number(numberA) - Number(numberB) || compare(a, b);
}
