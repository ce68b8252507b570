import type { Metres } from "#engine/units";
import { standsWell } from "./clearances.ts";
import type { Candidate } from "./draft.ts";
import { length, message } from "./message-keys.ts";
import { shifted, type PieceSolid, type Scene } from "./scene.ts";

/** How far a move may go, tried from near to far. */
const rings: readonly Metres[] = [
  0.002, 0.004, 0.006, 0.009, 0.013, 0.018, 0.024, 0.032, 0.042, 0.055, 0.07, 0.09, 0.115, 0.15, 0.2,
];
const directions = 12;

/**
 * How many places one check may try in all while it looks for moves. Keeps a hopeless load fast: the first findings
 * get their remedies, the rest get theirs once these are mended.
 */
export interface SearchBudget {
  places: number;
}

export const usualBudget = (): SearchBudget => ({ places: 3000 });

/** The nearest place on its own shelf where the piece keeps every rule, on rings about where it stands; none if it is fixed. */
export function nearestPlace(scene: Scene, piece: PieceSolid, budget: SearchBudget): readonly Candidate[] {
  if (piece.placed.fixed) return [];
  const farthest = rings.at(-1) as Metres;
  const nearby = scene.pieces.filter(
    (other) =>
      other !== piece &&
      Math.hypot(other.placed.x - piece.placed.x, other.placed.y - piece.placed.y) <
        piece.reach + other.reach + farthest + scene.load.kiln.rules.glazeGap,
  );
  for (const [i, away] of rings.entries()) {
    for (let j = 0; j < directions; j++) {
      if (budget.places-- <= 0) return [];
      const azimuth = (2 * Math.PI * (j + (i % 2) / 2)) / directions;
      const moved = shifted(piece, away * Math.cos(azimuth), away * Math.sin(azimuth));
      if (!standsWell(scene, moved, nearby)) continue;
      const { pieceId, shelfId, x, y, angle } = moved.placed;
      const inward = Math.hypot(piece.placed.x, piece.placed.y) - Math.hypot(x, y) > away / 2;
      return [
        {
          remedy: { kind: "move-piece", pieceId, shelfId, x, y, angle },
          advice: message(inward ? "do.move-inward" : "do.move-by", { piece: piece.name, by: length(away) }),
        },
      ];
    }
  }
  return [];
}
