import { flatsOf, placeFootprint, type Flat, type Footprint } from "#engine/geometry";
import type { Metres } from "#engine/units";
import { footprintToPlate, intoFrame, partToPlate, planDistance, pointToPlate } from "./plate.ts";
import {
  hair,
  type ConesSolid,
  type PieceSolid,
  type PostSolid,
  type Scene,
  type ShelfSolid,
  type Tip,
} from "./scene.ts";
import { distanceBetweenParts, distanceToPart, type Part } from "./solid.ts";

/*
 * Distances of one piece to all that stands about it [m], negative where they overlap. Each is exact where they are
 * apart (scene.test.ts holds them against sampled points).
 */

/** Least distance from the footprint to the chamber's wall. */
export function roomToChamber(scene: Scene, piece: PieceSolid): Metres {
  return roomWithin(scene.flats, scene.roundWall, piece.footprint);
}

/** Least distance from the foot to the edge of its shelf; negative where it hangs over. */
export const footRoom = (piece: PieceSolid): Metres => roomOn(piece.shelf, piece.foot);

function roomOn(shelf: ShelfSolid, standing: Footprint): Metres {
  const { outline, at } = shelf.plate;
  const foot = at.x === 0 && at.y === 0 && at.angle === 0 ? standing : placeFootprint(standing, intoFrame(at));
  const round = outline.kind === "disc" || outline.kind === "half-disc" ? outline.radius : Infinity;
  return roomWithin(outline.kind === "disc" ? [] : flatsOf(outline), round, foot);
}

/** As geometry's `roomInside`, for flats made once and without allocation: a search asks this hundreds of times. */
function roomWithin(flats: readonly Flat[], round: Metres, footprint: Footprint): Metres {
  let room = Infinity;
  for (const box of footprint) {
    const cos = Math.cos(box.angle);
    const sin = Math.sin(box.angle);
    for (const { nx, ny, distance } of flats) {
      const reach = Math.abs(cos * nx + sin * ny) * box.halfX + Math.abs(cos * ny - sin * nx) * box.halfY;
      room = Math.min(room, distance - box.x * nx - box.y * ny - reach - box.radius);
    }
    if (round === Infinity) continue;
    // The core's farthest corner lies on the side away from the axis.
    const along = Math.abs(cos * box.x + sin * box.y) + box.halfX;
    const across = Math.abs(cos * box.y - sin * box.x) + box.halfY;
    room = Math.min(room, round - Math.hypot(along, across) - box.radius);
  }
  return room;
}

/** The other shelf at the same height that a foot overhanging its own also stands on, or null. */
export function straddled(scene: Scene, piece: PieceSolid): ShelfSolid | null {
  return (
    scene.shelves.find(
      (other) =>
        other !== piece.shelf &&
        Math.abs(other.placed.z - piece.shelf.placed.z) < 0.005 &&
        footprintToPlate(piece.foot, other.plate) < -hair,
    ) ?? null
  );
}

/** Free height above a piece under each shelf that reaches over it. */
export function headrooms(
  scene: Scene,
  piece: PieceSolid,
): readonly { readonly shelf: ShelfSolid; readonly gap: Metres }[] {
  const found: { readonly shelf: ShelfSolid; readonly gap: Metres }[] = [];
  for (const shelf of scene.shelves) {
    if (shelf === piece.shelf || shelf.plate.bottom < piece.shelf.plate.top - hair) continue;
    if (planDistance(shelf.plate, piece.placed.x, piece.placed.y) > piece.reach) continue;
    if (footprintToPlate(piece.footprint, shelf.plate) < -hair) {
      found.push({ shelf, gap: shelf.plate.bottom - piece.top });
    }
  }
  return found;
}

export const lidGap = (scene: Scene, piece: PieceSolid): Metres => scene.load.kiln.chamber.height - piece.top;

/** Distance to the edge of each shelf that stands beside a piece, over part of its height. */
export function besideShelves(
  scene: Scene,
  piece: PieceSolid,
  near: Metres,
): readonly { readonly shelf: ShelfSolid; readonly gap: Metres }[] {
  const found: { readonly shelf: ShelfSolid; readonly gap: Metres }[] = [];
  for (const shelf of scene.shelves) {
    if (shelf === piece.shelf) continue;
    const inHeight = Math.min(piece.top, shelf.plate.top) - Math.max(piece.bottom, shelf.plate.bottom);
    if (inHeight <= -near || shelf.plate.top <= piece.shelf.plate.top + hair) continue;
    if (planDistance(shelf.plate, piece.placed.x, piece.placed.y) > piece.reach + near) continue;
    // Under the shelf its headroom counts, not the distance to its edge.
    if (shelf.plate.bottom >= piece.shelf.plate.top - hair && footprintToPlate(piece.footprint, shelf.plate) < -hair) {
      continue;
    }
    found.push({ shelf, gap: Math.min(...piece.parts.map((part) => partToPlate(part, shelf.plate))) });
  }
  return found;
}

export function gapBetween(a: PieceSolid, b: PieceSolid, near: Metres): Metres {
  const apart = Math.hypot(a.placed.x - b.placed.x, a.placed.y - b.placed.y) - a.reach - b.reach;
  if (apart > near || a.bottom - b.top > near || b.bottom - a.top > near) return Infinity;
  return betweenAll(a.parts, b.parts);
}

export function gapToCones(piece: PieceSolid, cones: ConesSolid): Metres {
  return betweenAll(piece.parts, [cones.part]);
}

/** Least room a cone pack has: to its shelf's edge, the wall, posts and other shelves; negative where it has none. */
export function coneClearance(scene: Scene, { part, shelf }: ConesSolid): Metres {
  const footprint = part.kind === "upright" ? [part.box] : [];
  const posts = scene.posts.filter((post) => post.top > part.bottom && post.bottom < part.top);
  const others = scene.shelves.filter((other) => other !== shelf && other.plate.top > part.bottom + hair);
  return Math.min(
    roomWithin(scene.flats, scene.roundWall, footprint),
    roomOn(shelf, footprint),
    ...posts.map((post) => distanceBetweenParts(part, postPart(post, post.bottom))),
    ...others.map((other) => partToPlate(part, other.plate)),
    scene.load.kiln.chamber.height - part.top,
  );
}

export function postPart(post: PostSolid, from: Metres): Part {
  return { kind: "upright", box: post.box, bottom: from, top: post.top };
}

/** Distance to each post that passes beside a piece and is nearer than `near`. */
export function gapsToPosts(
  scene: Scene,
  piece: PieceSolid,
  near: Metres,
): readonly { readonly post: PostSolid; readonly gap: Metres }[] {
  const found: { readonly post: PostSolid; readonly gap: Metres }[] = [];
  for (const post of scene.posts) {
    if (post.top <= piece.bottom || post.bottom >= piece.top) continue;
    const away = Math.hypot(post.box.x - piece.placed.x, post.box.y - piece.placed.y);
    if (away - post.width > piece.reach + near) continue;
    const gap = betweenAll(piece.parts, [postPart(post, post.bottom)]);
    if (gap < near) found.push({ post, gap });
  }
  return found;
}

function betweenAll(a: readonly Part[], b: readonly Part[]): Metres {
  let least = Infinity;
  for (const partA of a) for (const partB of b) least = Math.min(least, distanceBetweenParts(partA, partB));
  return least;
}

export function pieceToTip(piece: PieceSolid, tip: Tip): Metres {
  const away = Math.hypot(piece.placed.x - tip.x, piece.placed.y - tip.y);
  // Far pieces need no exact distance.
  if (away - piece.reach > 0.5) return away - piece.reach;
  return Math.min(...piece.parts.map((part) => distanceToPart(part, tip.x, tip.y, tip.z)));
}

export const shelfToTip = (shelf: ShelfSolid, tip: Tip): Metres => pointToPlate(shelf.plate, tip.x, tip.y, tip.z);
export const postToTip = (post: PostSolid, tip: Tip): Metres =>
  distanceToPart(postPart(post, post.bottom), tip.x, tip.y, tip.z);
export const conesToTip = (cones: ConesSolid, tip: Tip): Metres => distanceToPart(cones.part, tip.x, tip.y, tip.z);

/** True if the piece keeps every rule about its place on its shelf: what a remedy that moves it must reach. */
export function standsWell(scene: Scene, piece: PieceSolid, others: readonly PieceSolid[]): boolean {
  const { rules } = scene.load.kiln;
  const gap = scene.load.firingClass.mayTouch ? 0 : rules.glazeGap;
  return (
    roomToChamber(scene, piece) >= rules.wareToWall - hair &&
    footRoom(piece) >= -hair &&
    others.every((other) => other.piece.id === piece.piece.id || gapBetween(piece, other, gap) >= gap - hair) &&
    gapsToPosts(scene, piece, rules.postGap - hair).length === 0 &&
    scene.cones.every((cones) => gapToCones(piece, cones) >= -hair) &&
    lidGap(scene, piece) >= rules.lidHeadroom - hair &&
    headrooms(scene, piece).every((above) => above.gap >= rules.headroom - hair) &&
    besideShelves(scene, piece, gap).every((beside) => beside.gap >= gap - hair) &&
    scene.tips.every((tip) => pieceToTip(piece, tip) >= rules.sensorClear - hair)
  );
}
