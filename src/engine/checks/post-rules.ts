import type { Metres } from "#engine/units";
import { draft, type Draft } from "./draft.ts";
import { length, message } from "./message-keys.ts";
import { boxToPlate, fromFrame, planDistance } from "./plate.ts";
import { countOf, postChoices, postsInUse } from "./post-choices.ts";
import { hair, postPlay, supportUnder, type PostSolid, type Scene, type ShelfSolid } from "./scene.ts";
import { ruleNumbers } from "./rule-table.ts";
import { pointToSegment } from "./solid.ts";

/** Posts under each shelf: enough, of the right length, standing on something, in line, holding the weight. */
export function postDrafts(scene: Scene): readonly Draft[] {
  return [
    ...scene.shelves.flatMap((shelf) => [
      ...countDrafts(scene, shelf),
      ...reachDrafts(scene, shelf),
      ...holdDrafts(scene, shelf),
      ...placeDrafts(scene, shelf),
      ...lineDrafts(scene, shelf),
      ...stackDrafts(scene, shelf),
    ]),
    ...stockDrafts(scene),
  ];
}

const at = (shelf: ShelfSolid, post?: PostSolid): Pick<Parameters<typeof draft>[1], "shelfIds" | "point"> => ({
  shelfIds: [shelf.placed.id],
  point: post ? [post.box.x, post.box.y, post.top] : null,
});

function countDrafts(scene: Scene, shelf: ShelfSolid): readonly Draft[] {
  const need = scene.load.kiln.rules.postsPerShelf;
  const count = shelf.posts.length;
  if (count >= need) return [];
  return [
    draft("posts-count", {
      ...at(shelf),
      measured: count,
      limit: need,
      message: message("found.posts-count", { shelf: shelf.number, count, limit: need }),
      advice: message("do.add-post", { count: need - count }),
    }),
  ];
}

function reachDrafts(scene: Scene, shelf: ShelfSolid): readonly Draft[] {
  let worst: { readonly off: Metres; readonly post: PostSolid; readonly footing: Metres } | null = null;
  for (const post of shelf.posts) {
    const { z } = supportUnder(scene, post.box.x, post.box.y, post.top);
    const off = post.bottom - z;
    if (Math.abs(off) > postPlay + hair && (!worst || Math.abs(off) > Math.abs(worst.off))) {
      worst = { off, post, footing: z };
    }
  }
  if (!worst) return [];
  const { off, post, footing } = worst;
  const gap = post.top - footing;
  return [
    draft("posts-reach", {
      ...at(shelf, post),
      measured: Math.abs(off),
      limit: 0,
      message: message(off > 0 ? "found.posts-short" : "found.posts-long", {
        shelf: shelf.number,
        off: length(Math.abs(off)),
      }),
      advice: message("do.posts-that-reach", { gap: length(gap) }),
      candidates: () => postChoices(scene, shelf, () => true),
    }),
  ];
}

/** The weight on a shelf must stand between its posts, or it tips. */
function holdDrafts(scene: Scene, shelf: ShelfSolid): readonly Draft[] {
  if (shelf.posts.length < 3) return [];
  const [x, y] = centreOfMass(scene, shelf);
  const corners = shelf.posts.flatMap(({ box }) =>
    [-1, 1].flatMap((sx) => [-1, 1].map((sy) => [box.x + sx * box.halfX, box.y + sy * box.halfY] as const)),
  );
  const outside = distanceToHull(corners, x, y);
  if (outside <= hair) return [];
  return [
    draft("posts-hold", {
      shelfIds: [shelf.placed.id],
      point: [x, y, shelf.plate.top],
      measured: outside,
      limit: 0,
      message: message("found.posts-hold", { shelf: shelf.number }),
      advice: message("do.spread-posts"),
    }),
  ];
}

function centreOfMass(scene: Scene, shelf: ShelfSolid): readonly [Metres, Metres] {
  const { outline } = shelf.type;
  // Centroid of a half disc: 4 R / (3 pi) from its straight edge.
  const inward = outline.kind === "half-disc" ? (-4 * outline.radius) / (3 * Math.PI) : 0;
  const [shelfX, shelfY] = fromFrame(shelf.placed, inward, 0);
  let total = shelf.type.mass;
  let x = shelfX * total;
  let y = shelfY * total;
  for (const piece of scene.pieces) {
    if (piece.shelf !== shelf) continue;
    total += piece.shape.mass;
    x += piece.placed.x * piece.shape.mass;
    y += piece.placed.y * piece.shape.mass;
  }
  return [x / total, y / total];
}

/** Distance from a point to the convex hull of others [m]; 0 inside. */
function distanceToHull(points: readonly (readonly [number, number])[], x: Metres, y: Metres): Metres {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const turn = (o: readonly number[], a: readonly number[], b: readonly number[]): number =>
    (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
  const chain = (order: readonly (readonly [number, number])[]): (readonly [number, number])[] => {
    const kept: (readonly [number, number])[] = [];
    for (const point of order) {
      while (kept.length > 1 && turn(kept.at(-2) as readonly number[], kept.at(-1) as readonly number[], point) <= 0) {
        kept.pop();
      }
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  const hull = [...chain(sorted), ...chain([...sorted].reverse())];
  let inside = true;
  let least = Infinity;
  hull.forEach((a, i) => {
    const b = hull[(i + 1) % hull.length];
    if (turn(a, b, [x, y]) < 0) inside = false;
    least = Math.min(least, pointToSegment(x, y, a[0], a[1], b[0], b[1]));
  });
  return inside ? 0 : least;
}

function placeDrafts(scene: Scene, shelf: ShelfSolid): readonly Draft[] {
  const found: Draft[] = [];
  for (const post of shelf.posts) {
    const outside = planDistance(shelf.plate, post.box.x, post.box.y);
    if (outside > hair) {
      found.push(
        draft("post-outside", {
          ...at(shelf, post),
          measured: outside,
          limit: 0,
          message: message("found.post-outside", { shelf: shelf.number, over: length(outside) }),
          advice: message("do.post-under-shelf"),
        }),
      );
    }
    for (const other of scene.shelves) {
      if (other === shelf) continue;
      const inHeight = Math.min(post.top, other.plate.top) - Math.max(post.bottom, other.plate.bottom);
      if (inHeight <= postPlay + hair) continue;
      const apart = boxToPlate(post.box, other.plate);
      // A post whose middle is over the shelf stands on it: then its length is wrong, and `posts-reach` says so.
      if (apart >= -hair || planDistance(other.plate, post.box.x, post.box.y) <= hair) continue;
      found.push(
        draft("post-in-shelf", {
          shelfIds: [shelf.placed.id, other.placed.id],
          point: [post.box.x, post.box.y, other.plate.top],
          measured: -apart,
          limit: 0,
          message: message("found.post-in-shelf", { shelf: shelf.number, other: other.number, over: length(-apart) }),
          advice: message("do.post-clear-of-shelf"),
        }),
      );
    }
  }
  return found;
}

function lineDrafts(scene: Scene, shelf: ShelfSolid): readonly Draft[] {
  const off: { readonly post: PostSolid; readonly distance: Metres; readonly below: ShelfSolid }[] = [];
  for (const post of shelf.posts) {
    const below = supportUnder(scene, post.box.x, post.box.y, post.top).shelf;
    if (!below) continue;
    const distance = Math.min(
      ...below.posts.map((other) => Math.hypot(other.box.x - post.box.x, other.box.y - post.box.y)),
    );
    if (distance > post.width * ruleNumbers.postOffset + hair) off.push({ post, distance, below });
  }
  const worst = off.sort((a, b) => b.distance - a.distance)[0];
  if (!worst) return [];
  return [
    draft("posts-in-line", {
      ...at(shelf, worst.post),
      measured: worst.distance,
      limit: worst.post.width * ruleNumbers.postOffset,
      message: message("found.posts-in-line", {
        shelf: shelf.number,
        count: off.length,
        off: length(worst.distance),
        below: worst.below.number,
      }),
      advice: message("do.posts-over-posts", { below: worst.below.number }),
    }),
  ];
}

function stackDrafts(scene: Scene, shelf: ShelfSolid): readonly Draft[] {
  const { maxStack } = scene.load.furniture;
  const tallest = Math.max(0, ...shelf.posts.map((post) => post.lengths.length));
  if (tallest <= maxStack) return [];
  return [
    draft("posts-in-stack", {
      ...at(shelf),
      measured: tallest,
      limit: maxStack,
      message: message("found.posts-in-stack", { shelf: shelf.number, count: tallest, limit: maxStack }),
      advice: message("do.fewer-posts"),
      candidates: () => postChoices(scene, shelf, () => true),
    }),
  ];
}

function stockDrafts(scene: Scene): readonly Draft[] {
  const { posts, shelves, stilts } = scene.load.furniture;
  const found: Draft[] = [];
  const used = postsInUse(scene);
  const kinds = [...new Set(used.map((each) => Math.round(each * 1e4) / 1e4))].sort((a, b) => a - b);
  for (const kind of kinds) {
    const have = posts
      .filter((post) => Math.abs(post.length - kind) < postPlay)
      .reduce((sum, post) => sum + post.count, 0);
    const count = countOf(used, kind);
    if (count <= have) continue;
    const on = scene.shelves.filter((shelf) => shelf.posts.some((post) => countOf(post.lengths, kind) > 0));
    found.push(
      draft("posts-in-stock", {
        shelfIds: on.map((shelf) => shelf.placed.id),
        measured: count,
        limit: have,
        message: message("found.posts-in-stock", { length: length(kind), count, limit: have }),
        advice: message("do.other-posts"),
      }),
    );
  }
  for (const type of shelves) {
    const on = scene.shelves.filter((shelf) => shelf.type.id === type.id);
    if (on.length <= type.count) continue;
    found.push(
      draft("shelves-in-stock", {
        shelfIds: on.map((shelf) => shelf.placed.id),
        measured: on.length,
        limit: type.count,
        message: message("found.shelves-in-stock", { name: type.name, count: on.length, limit: type.count }),
        advice: message("do.other-shelf"),
      }),
    );
  }
  for (const type of stilts) {
    const on = scene.pieces.filter((piece) => piece.piece.stiltId === type.id);
    if (on.length <= type.count) continue;
    found.push(
      draft("stilts-in-stock", {
        pieceIds: on.map((piece) => piece.piece.id),
        measured: on.length,
        limit: type.count,
        message: message("found.stilts-in-stock", { name: type.name, count: on.length, limit: type.count }),
        advice: message("do.other-stilts"),
      }),
    );
  }
  return found;
}
