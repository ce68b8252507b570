import { distanceToFootprint, placeFootprint } from "#engine/geometry";
import { footprintOf, shapeOf, type Load, type PlacedPiece } from "#engine/kiln";
import type { Metres } from "#engine/units";

/** The placed piece whose footprint is nearest to a point, and how far it is (negative inside) [m]; null if none is within `reach`. */
export function nearestPiece(
  load: Load,
  pieces: readonly PlacedPiece[],
  x: Metres,
  y: Metres,
  reach: Metres,
): { readonly piece: PlacedPiece; readonly distance: Metres } | null {
  let nearest: PlacedPiece | null = null;
  let distance = Infinity;
  for (const piece of pieces) {
    const apart = distanceToFootprint(placeFootprint(footprintOf(shapeOf(load, piece.pieceId)), piece), x, y);
    if (apart < distance) [nearest, distance] = [piece, apart];
  }
  return nearest && distance <= reach ? { piece: nearest, distance } : null;
}
