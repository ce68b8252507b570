import type { Load, PlacedShelf, Setting } from "#engine/kiln";
import type { Remedy } from "./finding.ts";
import { footingOf } from "./post-choices.ts";
import { hair, sceneOf, supportUnder, type Scene, type ShelfSolid } from "./scene.ts";

/**
 * The setting with a remedy applied, or null where it cannot be: an unknown shelf or piece, or posts that other
 * shelves' footing forbids.
 *
 * New posts go under every place of the shelf. All that stands on it moves with it; heights between shelves above stay.
 */
export function applyRemedy(load: Load, remedy: Remedy): Setting | null {
  const { setting } = load;
  switch (remedy.kind) {
    case "take-out": {
      const out = new Set(remedy.pieceIds);
      return { ...setting, pieces: setting.pieces.filter((piece) => !out.has(piece.pieceId)) };
    }
    case "move-piece": {
      const { pieceId, shelfId, x, y, angle } = remedy;
      if (!setting.shelves.some((shelf) => shelf.id === shelfId)) return null;
      if (!setting.pieces.some((piece) => piece.pieceId === pieceId)) return null;
      return {
        ...setting,
        pieces: setting.pieces.map((piece) =>
          piece.pieceId === pieceId ? { pieceId, shelfId, x, y, angle, fixed: piece.fixed } : piece,
        ),
      };
    }
    case "change-posts":
      return changePosts(sceneOf(load), remedy.shelfId, remedy.lengths);
  }
}

function changePosts(scene: Scene, shelfId: string, lengths: readonly number[]): Setting | null {
  const shelf = scene.shelves.find((each) => each.placed.id === shelfId);
  if (!shelf) return null;
  const footing = footingOf(scene, shelf);
  if (footing === null) return null;
  const z = footing + lengths.reduce((sum, length) => sum + length, 0) + shelf.type.thickness;
  const lift = z - shelf.placed.z;
  const moved = Math.abs(lift) < hair ? new Set([shelf]) : movedWith(scene, shelf);
  if (!moved) return null;
  const shelves = scene.load.setting.shelves.map((placed): PlacedShelf => {
    if (placed.id === shelfId) return { ...placed, z, posts: placed.posts.map((post) => ({ ...post, lengths })) };
    const rides = [...moved].some((each) => each.placed.id === placed.id);
    return rides ? { ...placed, z: placed.z + lift } : placed;
  });
  return { ...scene.load.setting, shelves };
}

/** The shelf and all that stand on it; null if one of them also stands on something that stays. */
function movedWith(scene: Scene, shelf: ShelfSolid): ReadonlySet<ShelfSolid> | null {
  const moved = new Set([shelf]);
  for (const other of scene.shelves) {
    if (moved.has(other) || other.plate.top < shelf.plate.top) continue;
    const on = other.posts.map((post) => {
      const { shelf: below } = supportUnder(scene, post.box.x, post.box.y, post.top);
      return below !== null && moved.has(below);
    });
    if (!on.some(Boolean)) continue;
    if (!on.every(Boolean)) return null;
    moved.add(other);
  }
  return moved;
}
