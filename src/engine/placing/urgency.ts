import type { Piece } from "#engine/kiln";
import type { DayNumber } from "#engine/units";

/**
 * Weight of a piece in the objective [-, > 0]: its value, up to five times as much when its promised day is near.
 *
 * The factor is 5 for a piece promised today or overdue and falls by half of its excess over 1 every 3 days.
 * Common practice, no source, for the order; the numbers are ours: with 2-3 firings a week, a piece due before the
 * next firing outweighs any two of equal value that can wait a week.
 */
export function worthOf(piece: Piece, today: DayNumber): number {
  const days = Math.max(piece.promised - today, 0);
  return piece.value * (1 + 4 * 2 ** (-days / 3));
}
