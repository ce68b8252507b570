import type { LayerRoom } from "./column-bound.ts";

/** Room in a round layer of radius `radius` with `posts` round posts of `postRadius` below the top layer [m, m2]. */
export function roundRoom(radius: number, gap: number, posts: number, postRadius: number): LayerRoom {
  const outer = radius + gap / 2;
  // Pieces grown by half the gap may reach half a gap into a post's clearance, no farther.
  const post = Math.max(postRadius - gap / 2, 0);
  return {
    area: Math.PI * (outer * outer - posts * post * post),
    topArea: Math.PI * outer * outer,
    radius: outer,
  };
}
