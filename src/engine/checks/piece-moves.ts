import type { Metres } from "#engine/units";
import { standsWell } from "./clearances.ts";
import type { Candidate } from "./draft.ts";
import { length, message } from "./message-keys.ts";
import { pieceSolid, type PieceSolid, type Scene } from "./scene.ts";

const ring: Metres = 0.004;
const rings = 20;
const directions = 16;

/**
 * How many places one check may try in all while it looks for moves. Keeps a hopeless load fast: the first findings
 * get their remedies, the rest get theirs once these are mended.
 */
export interface SearchBudget {
  places: number;
}

export const usualBudget = (): SearchBudget => ({ places: 1500 });

/** The nearest place on its own shelf where the piece keeps every rule, on rings about where it stands; none if it is fixed. */
export function nearestPlace(scene: Scene, piece: PieceSolid, budget: SearchBudget): readonly Candidate[] {
  if (piece.placed.fixed) return [];
  const nearby = scene.pieces.filter(
    (other) =>
      other !== piece &&
      Math.hypot(other.placed.x - piece.placed.x, other.placed.y - piece.placed.y) <
        piece.reach + other.reach + ring * rings + scene.load.kiln.rules.glazeGap,
  );
  for (let i = 1; i <= rings; i++) {
    for (let j = 0; j < directions; j++) {
      if (budget.places-- <= 0) return [];
      const azimuth = (2 * Math.PI * (j + (i % 2) / 2)) / directions;
      const placed = {
        ...piece.placed,
        x: piece.placed.x + i * ring * Math.cos(azimuth),
        y: piece.placed.y + i * ring * Math.sin(azimuth),
      };
      if (!standsWell(scene, pieceSolid(scene.load, piece.shelf, placed), nearby)) continue;
      const { pieceId, shelfId, x, y, angle } = placed;
      const inward = Math.hypot(piece.placed.x, piece.placed.y) - Math.hypot(x, y) > (i * ring) / 2;
      return [
        {
          remedy: { kind: "move-piece", pieceId, shelfId, x, y, angle },
          advice: message(inward ? "do.move-inward" : "do.move-by", { piece: piece.name, by: length(i * ring) }),
        },
      ];
    }
  }
  return [];
}
