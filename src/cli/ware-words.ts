import type { StudioDocument } from "#records";
import { english } from "#words";

/** "8 tumblers, 2 cereal bowls": pieces counted by shape, most first. */
export function waresInWords(document: StudioDocument, pieceIds: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const id of pieceIds) {
    const piece = document.pieces.find((each) => each.id === id);
    if (piece) counts.set(piece.shapeId, (counts.get(piece.shapeId) ?? 0) + 1);
  }
  return [...counts]
    .sort((a, b) => b[1] - a[1])
    .map(([shapeId, count]) => {
      const name = document.shapes.find((shape) => shape.id === shapeId)?.name ?? shapeId;
      return `${count} ${english.pluralName(name, count)}`;
    })
    .join(", ");
}
