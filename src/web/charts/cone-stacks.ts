import type { PieceHeat } from "#work";

export interface StackedDot {
  readonly heat: PieceHeat;
  /** Middle of the dot's column [CSS px]. */
  readonly x: number;
  /** 0 for the lowest dot of its column. */
  readonly level: number;
}

/**
 * Dots in columns over a cone axis: every piece is in the column nearest to where it lands, so it is drawn at most
 * half a dot away from its place; in a column the pieces nearest to the wanted middle lie lowest.
 */
export function stackDots(
  heats: readonly PieceHeat[],
  xOf: (offset: number) => number,
  diameter: number,
): readonly StackedDot[] {
  const levels = new Map<number, number>();
  return [...heats]
    .sort((a, b) => Math.abs(a.offset) - Math.abs(b.offset) || a.pieceId.localeCompare(b.pieceId))
    .map((heat) => {
      const column = Math.round(xOf(heat.offset) / diameter);
      const level = levels.get(column) ?? 0;
      levels.set(column, level + 1);
      return { heat, x: column * diameter, level };
    });
}
