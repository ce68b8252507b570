import { radiusAt } from "#engine/geometry";
import { conePackHeight } from "#engine/kiln";
import { digitTwins } from "./class-rules.ts";
import { coneClearance, postPart } from "./clearances.ts";
import { draft, type Draft } from "./draft.ts";
import { length, message } from "./message-keys.ts";
import { hair, type ConesSolid, type PieceSolid, type Scene } from "./scene.ts";
import { partBlocks, plateBlocks, type Point } from "./sight.ts";

/** A spyhole shows what lies within this of straight ahead [rad]: the bore is long and narrow. Common practice, no source. */
const widestView = Math.PI / 4;
/** The half of a cone that bends must be seen: from here to its tip [share of its height]. */
const seenFrom = 0.5;

/** Witness cones on three levels, in sight of a spyhole. */
export function coneTips(scene: Scene): readonly Draft[] {
  return [...levelDrafts(scene), ...sightDrafts(scene)];
}

/** Cone packs that could not tell whether the class is done. */
export function packDrafts(scene: Scene): readonly Draft[] {
  const wanted = scene.load.firingClass.cone;
  return scene.cones
    .filter(({ placed }) => !placed.cones.includes(wanted))
    .map(({ placed, shelf }) => {
      const twin = placed.cones.find((cone) => digitTwins(cone, wanted));
      return draft("cones-for-class", {
        shelfIds: [shelf.placed.id],
        point: [placed.x, placed.y, shelf.placed.z],
        message:
          twin === undefined
            ? message("found.cones-for-class", { shelf: shelf.number, wanted })
            : message("found.cones-digits", { shelf: shelf.number, set: twin, wanted }),
        advice: message("do.pack-for-class", { wanted }),
      });
    });
}

/** A pack that hangs over its shelf, or stands in the wall, a post or the shelf above. */
export function fitDrafts(scene: Scene): readonly Draft[] {
  return scene.cones.flatMap((cones) => {
    const { part, shelf, placed } = cones;
    const clear = coneClearance(scene, cones);
    if (clear >= -hair) return [];
    return [
      draft("cones-fit", {
        shelfIds: [shelf.placed.id],
        point: [placed.x, placed.y, part.top],
        measured: -clear,
        limit: 0,
        message: message("found.cones-fit", { shelf: shelf.number, over: length(-clear) }),
        advice: message("do.cones-elsewhere"),
      }),
    ];
  });
}

/** Bottom, middle and top: as many levels as there are shelves, up to three. */
function levelDrafts(scene: Scene): readonly Draft[] {
  const levels = new Set(scene.shelves.map((shelf) => Math.round(shelf.placed.z * 1000)));
  const need = Math.min(levels.size, 3);
  const heights = new Set(scene.cones.map((cones) => Math.round(cones.shelf.placed.z * 1000)));
  const ends = [Math.min(...levels), Math.max(...levels)];
  if (need === 0 || (heights.size >= need && ends.every((end) => heights.has(end)))) return [];
  return [
    draft("cones-on-levels", {
      measured: heights.size,
      limit: need,
      shelfIds: scene.cones.map((cones) => cones.shelf.placed.id),
      message: message("found.cones-on-levels", { count: heights.size, limit: need }),
      advice: message("do.cones-levels"),
    }),
  ];
}

type Blocker = PieceSolid | "post" | "shelf";

/** What one spyhole shows of one cone. */
type Sight = "seen" | "out of view" | Blocker;

/** One finding for each cone that something hides, and one for all packs that no spyhole looks at. */
function sightDrafts(scene: Scene): readonly Draft[] {
  if (scene.load.kiln.spyholes.length === 0) return [];
  const hidden: Draft[] = [];
  const unseen: ConesSolid[] = [];
  for (const cones of scene.cones) {
    const sights = cones.placed.cones.map((_, i) => bestSight(scene, cones, i));
    if (sights.some((sight) => sight === "out of view")) unseen.push(cones);
    sights.forEach((sight, i) => {
      if (sight === "seen" || sight === "out of view") return;
      hidden.push(
        draft("cones-seen", {
          shelfIds: [cones.shelf.placed.id],
          pieceIds: typeof sight === "object" ? [sight.piece.id] : [],
          point: tipOf(cones, i, 1),
          message: hiddenMessage(sight, { cone: cones.placed.cones[i] ?? "", shelf: cones.shelf.number }),
          advice: message("do.turn-cones"),
        }),
      );
    });
  }
  const [first] = unseen;
  if (!first) return hidden;
  const shelves = [...new Set(unseen.map((cones) => cones.shelf))].sort((a, b) => a.number - b.number);
  const outOfView = draft("cones-seen", {
    shelfIds: shelves.map((shelf) => shelf.placed.id),
    point: tipOf(first, 0, 1),
    message: message("found.cones-out-of-view", {
      count: shelves.length,
      shelves: shelves.map((shelf) => String(shelf.number)),
    }),
    advice: message("do.cones-by-spyhole"),
  });
  return [...hidden, outOfView];
}

/** What the best spyhole for a cone shows of it. */
function bestSight(scene: Scene, cones: ConesSolid, index: number): Sight {
  const sights = scene.load.kiln.spyholes.map((_, spyhole) => sightOf(scene, cones, index, spyhole));
  return sights.find((sight) => sight === "seen") ?? sights.find((sight) => sight !== "out of view") ?? "out of view";
}

function tipOf(cones: ConesSolid, index: number, share: number): Point {
  const [x, y] = cones.feet[index] as readonly [number, number];
  return [x, y, cones.shelf.placed.z + share * conePackHeight];
}

function hiddenMessage(
  blocker: Blocker,
  values: { readonly cone: string; readonly shelf: number },
): ReturnType<typeof message> {
  if (blocker === "post") return message("found.cones-behind-post", values);
  if (blocker === "shelf") return message("found.cones-behind-shelf", values);
  return message("found.cones-behind-piece", { ...values, blocker: blocker.name });
}

function sightOf(scene: Scene, cones: ConesSolid, index: number, spyhole: number): Sight {
  const { azimuth, z } = scene.load.kiln.spyholes[spyhole];
  const radius = radiusAt(scene.load.kiln.chamber.plan, azimuth);
  const eye: Point = [radius * Math.cos(azimuth), radius * Math.sin(azimuth), z];
  for (const share of [seenFrom, 1]) {
    const tip = tipOf(cones, index, share);
    const away = [tip[0] - eye[0], tip[1] - eye[1], tip[2] - eye[2]] as const;
    const ahead = -(away[0] * Math.cos(azimuth) + away[1] * Math.sin(azimuth));
    if (ahead < Math.hypot(...away) * Math.cos(widestView)) return "out of view";
    const piece = scene.pieces.find((each) => each.parts.some((part) => partBlocks(part, eye, tip)));
    if (piece) return piece;
    if (scene.posts.some((post) => partBlocks(postPart(post, post.bottom), eye, tip))) return "post";
    // The line to a cone's upper half ends above its own shelf: it meets that one only from below.
    if (scene.shelves.some((shelf) => plateBlocks(shelf.plate, eye, tip))) return "shelf";
  }
  return "seen";
}
