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
  return [...levelDrafts(scene), ...scene.cones.flatMap((cones) => sightDrafts(scene, cones))];
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
        advice: message("do.cones-by-spyhole"),
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

function sightDrafts(scene: Scene, cones: ConesSolid): readonly Draft[] {
  if (scene.load.kiln.spyholes.length === 0) return [];
  const found: Draft[] = [];
  cones.placed.cones.forEach((cone, i) => {
    const sights = scene.load.kiln.spyholes.map((_, spyhole) => sightOf(scene, cones, i, spyhole));
    if (sights.includes("seen")) return;
    const blocker = sights.find((sight): sight is Blocker => sight !== "seen" && sight !== "out of view");
    const values = { cone, shelf: cones.shelf.number };
    found.push(
      draft("cones-seen", {
        shelfIds: [cones.shelf.placed.id],
        pieceIds: typeof blocker === "object" ? [blocker.piece.id] : [],
        point: tipOf(cones, i, 1),
        message: hiddenMessage(blocker, values),
        advice: message(blocker === undefined ? "do.cones-by-spyhole" : "do.turn-cones"),
      }),
    );
  });
  // Three cones out of view are one fault of the pack, not three.
  const outOfView = found.filter((each) => each.finding.message.key === "found.cones-out-of-view");
  return outOfView.length > 1 ? [outOfView[0], ...found.filter((each) => !outOfView.includes(each))] : found;
}

function tipOf(cones: ConesSolid, index: number, share: number): Point {
  const [x, y] = cones.feet[index] as readonly [number, number];
  return [x, y, cones.shelf.placed.z + share * conePackHeight];
}

function hiddenMessage(
  blocker: Blocker | undefined,
  values: { readonly cone: string; readonly shelf: number },
): ReturnType<typeof message> {
  if (blocker === undefined) return message("found.cones-out-of-view", values);
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
