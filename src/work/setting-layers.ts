import {
  heightOf,
  known,
  liftOf,
  shelfTypeOf,
  shelvesFromBottom,
  type Load,
  type PlacedPost,
  type Setting,
} from "#engine/kiln";
import type { Metres } from "#engine/units";

/**
 * The setting with its layers in another order, bottom up, or fewer of them; null if it is not a plain stack of full
 * shelves or the posts in stock do not allow it.
 *
 * A layer is a shelf with its ware, cones and the free height above it. Layers keep their posts; one that had only the
 * lid above gets the shortest stack in stock that clears its tallest piece. Whether the result keeps every rule is for
 * the checks to say.
 *
 * @param order  shelf ids from the bottom up
 */
export function withLayers(load: Load, order: readonly string[]): Setting | null {
  const { setting } = load;
  const shelves = shelvesFromBottom(setting);
  const bottom = shelves[0];
  if (!bottom || order.length === 0) return null;
  const plain = shelves.every(
    (shelf) => shelf.typeId === bottom.typeId && shelf.x === bottom.x && shelf.y === bottom.y,
  );
  if (!plain || bottom.posts.length < 3) return null;
  const thickness = shelfTypeOf(load, bottom).thickness;
  const stackAbove = new Map<string, readonly Metres[]>();
  shelves.slice(1).forEach((shelf, i) => stackAbove.set(shelves[i].id, shelf.posts[0]?.lengths ?? []));
  const places: readonly PlacedPost[] = bottom.posts;
  const used: Metres[] = places.flatMap(({ lengths }) => lengths);
  const moved: Setting["shelves"][number][] = [];
  let z = bottom.z;
  let under: readonly Metres[] = places[0].lengths;
  for (const id of order) {
    const shelf = shelves.find((each) => each.id === id);
    if (!shelf) return null;
    if (moved.length > 0) used.push(...places.flatMap(() => under));
    moved.push({ ...shelf, z, posts: places.map(({ x, y }) => ({ x, y, lengths: under })) });
    if (id === order.at(-1)) break;
    const stack = stackAbove.get(id) ?? stackFor(load, tallestOn(load, id) + load.kiln.rules.headroom, places.length);
    if (stack === null || stack.length === 0) return null;
    under = stack;
    z += stack.reduce((sum, length) => sum + length, 0) + thickness;
  }
  if (!inStock(load, used)) return null;
  const kept = new Set(order);
  return {
    shelves: moved,
    pieces: setting.pieces.filter(({ shelfId }) => kept.has(shelfId)),
    cones: setting.cones.filter(({ shelfId }) => kept.has(shelfId)),
  };
}

function tallestOn(load: Load, shelfId: string): Metres {
  const heights = load.setting.pieces
    .filter((placed) => placed.shelfId === shelfId)
    .map(({ pieceId }) => {
      const piece = known(load.pieces, pieceId, "piece");
      return liftOf(load, piece) + heightOf(known(load.shapes, piece.shapeId, "shape"));
    });
  return Math.max(0, ...heights);
}

/** Shortest stack of posts in stock, in sets, that is at least so high; null if there is none. */
function stackFor(load: Load, height: Metres, set: number): readonly Metres[] | null {
  const lengths = load.furniture.posts.filter(({ count }) => count >= set).map(({ length }) => length);
  let best: readonly Metres[] | null = null;
  const total = (stack: readonly Metres[]): number => stack.reduce((sum, length) => sum + length, 0);
  const grow = (stack: readonly Metres[], from: number): void => {
    if (total(stack) >= height - 1e-6 && (best === null || total(stack) < total(best))) best = stack;
    if (stack.length >= Math.min(load.furniture.maxStack, 3)) return;
    for (let i = from; i < lengths.length; i++) grow([...stack, lengths[i]], i);
  };
  grow([], 0);
  return best;
}

function inStock(load: Load, used: readonly Metres[]): boolean {
  return load.furniture.posts.every(
    ({ length, count }) => used.filter((each) => Math.abs(each - length) < 5e-4).length <= count,
  );
}
