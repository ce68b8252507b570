import type { Metres } from "#engine/units";
import type { Candidate } from "./draft.ts";
import { length, message } from "./message-keys.ts";
import { hair, postPlay, supportUnder, type Scene, type ShelfSolid } from "./scene.ts";

/** A stack of posts that stock allows: lengths from the longest up, and their sum [m]. */
export interface Stack {
  readonly lengths: readonly Metres[];
  readonly sum: Metres;
}

/** Posts in use by length, a post shared by two half shelves counted once. `except`: leave out one shelf's posts. */
export function postsInUse(scene: Scene, except: ShelfSolid | null = null): readonly Metres[] {
  const seen: { x: number; y: number; bottom: number; top: number }[] = [];
  const used: Metres[] = [];
  for (const shelf of scene.shelves) {
    if (shelf === except) continue;
    for (const post of shelf.posts) {
      const shared = seen.some(
        (other) =>
          Math.hypot(other.x - post.box.x, other.y - post.box.y) < 0.001 &&
          Math.abs(other.bottom - post.bottom) < postPlay &&
          Math.abs(other.top - post.top) < postPlay,
      );
      if (shared) continue;
      seen.push({ x: post.box.x, y: post.box.y, bottom: post.bottom, top: post.top });
      used.push(...post.lengths);
    }
  }
  return used;
}

export function countOf(lengths: readonly Metres[], length: Metres): number {
  return lengths.filter((each) => Math.abs(each - length) < postPlay).length;
}

/** Every height that posts still in stock can give under all posts of a shelf, fewest posts first, by height. */
export function stacksFor(scene: Scene, shelf: ShelfSolid): readonly Stack[] {
  const { posts, maxStack } = scene.load.furniture;
  const used = postsInUse(scene, shelf);
  const places = Math.max(shelf.posts.length, 1);
  const left = posts.map((post) => Math.floor((post.count - countOf(used, post.length)) / places));
  const bySum = new Map<number, Stack>();
  const grow = (from: number, lengths: readonly Metres[], sum: Metres): void => {
    if (lengths.length > 0) {
      const key = Math.round(sum * 1e5);
      const known = bySum.get(key);
      if (!known || known.lengths.length > lengths.length) {
        bySum.set(key, { lengths: [...lengths].sort((a, b) => b - a), sum });
      }
    }
    if (lengths.length === maxStack) return;
    for (let i = from; i < posts.length; i++) {
      const { length } = posts[i];
      if (countOf(lengths, length) >= left[i]) continue;
      grow(i, [...lengths, length], sum + length);
    }
  };
  grow(0, [], 0);
  return [...bySum.values()].sort((a, b) => a.sum - b.sum);
}

/** The posts' common footing, or null where they stand on different heights. */
export function footingOf(scene: Scene, shelf: ShelfSolid): Metres | null {
  const heights = shelf.posts.map((post) => supportUnder(scene, post.box.x, post.box.y, post.top).z);
  const first = heights[0];
  if (first === undefined || heights.some((z) => Math.abs(z - first) > hair)) return null;
  return first;
}

/** Other posts for a shelf, nearest to its present height first, that give a gap `wanted` accepts. */
export function postChoices(
  scene: Scene,
  shelf: ShelfSolid,
  wanted: (gap: Metres, underside: Metres) => boolean,
): readonly Candidate[] {
  const footing = footingOf(scene, shelf);
  if (footing === null) return [];
  const now = shelf.plate.bottom - footing;
  return stacksFor(scene, shelf)
    .filter((stack) => wanted(stack.sum, footing + stack.sum))
    .sort((a, b) => Math.abs(a.sum - now) - Math.abs(b.sum - now))
    .map((stack) => ({
      remedy: { kind: "change-posts", shelfId: shelf.placed.id, lengths: stack.lengths },
      advice: message(stack.lengths.length > 1 ? "do.posts-stacked" : "do.posts", {
        shelf: shelf.number,
        length: length(stack.sum),
        stack: stack.lengths.map((each) => String(Math.round(each * 1000))).join(" + "),
      }),
    }));
}
