import type { PieceHeat } from "#work";

export interface StackedDot {
  readonly heat: PieceHeat;
  /** Middle of the dot's column [CSS px]. */
  readonly x: number;
  /** 0 for the lowest dot of its column. */
  readonly level: number;
}

export interface DotStacks {
  readonly dots: readonly StackedDot[];
  /** Across a dot; columns are as wide and levels as high [CSS px]. */
  readonly diameter: number;
}

/** Largest and smallest dot [CSS px]. */
const sizes = [10, 9, 8, 7, 6] as const;

/**
 * Dots in columns over a cone axis, as large as lets every column fit under `tall`.
 *
 * Every piece is in the column nearest to where it lands, at most half a dot away. Only where even the smallest dots
 * pile too high do pieces stand in the next column with room, still in the order in which they land.
 */
export function stackDots(heats: readonly PieceHeat[], xOf: (offset: number) => number, tall: number): DotStacks {
  const sorted = [...heats].sort((a, b) => a.offset - b.offset || a.pieceId.localeCompare(b.pieceId));
  for (const diameter of sizes) {
    const columns = sorted.map(({ offset }) => Math.round(xOf(offset) / diameter));
    const room = Math.max(1, Math.floor(tall / diameter));
    const isSmallest = diameter === sizes.at(-1);
    if (!isSmallest && mostIn(columns) > room) continue;
    return { diameter, dots: stacked(sorted, isSmallest ? spread(columns, room) : columns, diameter) };
  }
  return { diameter: sizes[0], dots: [] };
}

function mostIn(columns: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const column of columns) counts.set(column, (counts.get(column) ?? 0) + 1);
  return Math.max(0, ...counts.values());
}

/** Sorted columns with at most `room` in each: a run that is too many grows evenly to both sides of its own column. */
function spread(columns: readonly number[], room: number): readonly number[] {
  const runs: { middle: number; members: number }[] = [];
  const firstOf = ({ middle, members }: { middle: number; members: number }): number =>
    Math.round(middle - (Math.ceil(members / room) - 1) / 2);
  for (const column of columns) {
    const last = runs.at(-1);
    if (last && column <= firstOf(last) + Math.ceil(last.members / room) - 1) {
      last.middle = (last.middle * last.members + column) / (last.members + 1);
      last.members += 1;
    } else runs.push({ middle: column, members: 1 });
  }
  let free = -Infinity;
  return runs.flatMap((run) => {
    const first = Math.max(firstOf(run), free);
    free = first + Math.ceil(run.members / room);
    return Array.from({ length: run.members }, (_, i) => first + Math.floor(i / room));
  });
}

function stacked(sorted: readonly PieceHeat[], columns: readonly number[], diameter: number): readonly StackedDot[] {
  const levels = new Map<number, number>();
  return sorted.map((heat, i) => {
    const column = columns[i];
    const level = levels.get(column) ?? 0;
    levels.set(column, level + 1);
    return { heat, x: column * diameter, level };
  });
}
