import {
  besideShelves,
  footRoom,
  gapBetween,
  gapsToPosts,
  gapToCones,
  headrooms,
  lidGap,
  roomToChamber,
  straddled,
} from "./clearances.ts";
import { draft, type Draft, type DraftInput } from "./draft.ts";
import { length, message } from "./message-keys.ts";
import { nearestPlace, type SearchBudget } from "./piece-moves.ts";
import { postChoices } from "./post-choices.ts";
import { hair, type PieceSolid, type Scene, type ShelfSolid } from "./scene.ts";

/** Each piece against the wall, its shelf, what is above and beside it, posts, cones and its neighbours. */
export function pieceDrafts(scene: Scene, budget: SearchBudget): readonly Draft[] {
  return [
    ...scene.pieces.flatMap((piece) => [
      ...wallDrafts(scene, piece, budget),
      ...footDrafts(scene, piece, budget),
      ...besideDrafts(scene, piece, budget),
      ...postGapDrafts(scene, piece, budget),
      ...inConesDrafts(scene, piece, budget),
    ]),
    ...pairDrafts(scene, budget),
    ...headroomDrafts(scene),
    ...lidDrafts(scene),
  ];
}

function of(
  scene: Scene,
  piece: PieceSolid,
  budget: SearchBudget,
): Pick<DraftInput, "shelfIds" | "pieceIds" | "point" | "candidates"> {
  return {
    shelfIds: [piece.shelf.placed.id],
    pieceIds: [piece.piece.id],
    point: [piece.placed.x, piece.placed.y, piece.bottom],
    candidates: () => nearestPlace(scene, piece, budget),
  };
}

function wallDrafts(scene: Scene, piece: PieceSolid, budget: SearchBudget): readonly Draft[] {
  const limit = scene.load.kiln.rules.wareToWall;
  const room = roomToChamber(scene, piece);
  if (room >= limit - hair) return [];
  const outside = room < -hair;
  return [
    draft("ware-to-wall", {
      ...of(scene, piece, budget),
      level: outside ? "stop" : "check",
      measured: room,
      limit,
      message: outside
        ? message("found.ware-outside", { piece: piece.name, over: length(-room) })
        : message("found.ware-to-wall", {
            piece: piece.name,
            measured: length(Math.max(room, 0)),
            limit: length(limit),
          }),
      advice: message("do.other-place", { piece: piece.name }),
    }),
  ];
}

function footDrafts(scene: Scene, piece: PieceSolid, budget: SearchBudget): readonly Draft[] {
  const room = footRoom(piece);
  if (room >= -hair) return [];
  const other = straddled(scene, piece);
  return [
    draft("foot-overhang", {
      ...of(scene, piece, budget),
      shelfIds: [piece.shelf.placed.id, ...(other ? [other.placed.id] : [])],
      measured: -room,
      limit: 0,
      message: other
        ? message("found.foot-straddle", { piece: piece.name, shelf: piece.shelf.number, other: other.number })
        : message("found.foot-overhang", { piece: piece.name, over: length(-room) }),
      advice: message("do.onto-shelf", { piece: piece.name }),
    }),
  ];
}

function besideDrafts(scene: Scene, piece: PieceSolid, budget: SearchBudget): readonly Draft[] {
  const limit = scene.load.firingClass.mayTouch ? 0 : scene.load.kiln.rules.glazeGap;
  return besideShelves(scene, piece, limit)
    .filter(({ gap }) => gap < limit - hair)
    .map(({ shelf, gap }) => {
      const into = gap < -hair;
      return draft("beside-shelf", {
        ...of(scene, piece, budget),
        shelfIds: [piece.shelf.placed.id, shelf.placed.id],
        level: into ? "stop" : "check",
        measured: gap,
        limit,
        message: into
          ? message("found.into-shelf", { piece: piece.name, shelf: shelf.number, over: length(-gap) })
          : message("found.beside-shelf", {
              piece: piece.name,
              shelf: shelf.number,
              measured: length(Math.max(gap, 0)),
              limit: length(limit),
            }),
        advice: message("do.other-place", { piece: piece.name }),
      });
    });
}

function postGapDrafts(scene: Scene, piece: PieceSolid, budget: SearchBudget): readonly Draft[] {
  const limit = scene.load.kiln.rules.postGap;
  const nearest = [...gapsToPosts(scene, piece, limit - hair)].sort((a, b) => a.gap - b.gap)[0];
  if (!nearest) return [];
  const onPost = nearest.gap < -hair;
  return [
    draft(onPost ? "piece-on-post" : "post-gap", {
      ...of(scene, piece, budget),
      measured: nearest.gap,
      limit: onPost ? 0 : limit,
      message: onPost
        ? message("found.piece-on-post", { piece: piece.name, over: length(-nearest.gap) })
        : message("found.post-gap", {
            piece: piece.name,
            measured: length(Math.max(nearest.gap, 0)),
            limit: length(limit),
          }),
      advice: message("do.move-off-post", { piece: piece.name }),
    }),
  ];
}

function inConesDrafts(scene: Scene, piece: PieceSolid, budget: SearchBudget): readonly Draft[] {
  return scene.cones
    .map((cones) => gapToCones(piece, cones))
    .filter((gap) => gap < -hair)
    .map((gap) =>
      draft("pieces-overlap", {
        ...of(scene, piece, budget),
        measured: -gap,
        limit: 0,
        message: message("found.piece-in-cones", { piece: piece.name, over: length(-gap) }),
        advice: message("do.other-place", { piece: piece.name }),
      }),
    );
}

function pairDrafts(scene: Scene, budget: SearchBudget): readonly Draft[] {
  const touching = scene.load.firingClass.mayTouch;
  const limit = touching ? 0 : scene.load.kiln.rules.glazeGap;
  const found: Draft[] = [];
  scene.pieces.forEach((a, i) => {
    for (let j = i + 1; j < scene.pieces.length; j++) {
      const b = scene.pieces[j];
      const gap = gapBetween(a, b, limit);
      if (gap >= limit - hair) continue;
      const overlap = gap < -hair;
      const touch = gap <= hair;
      found.push(
        draft(overlap ? "pieces-overlap" : "glaze-gap", {
          shelfIds: [...new Set([a.shelf.placed.id, b.shelf.placed.id])],
          pieceIds: [a.piece.id, b.piece.id],
          point: [(a.placed.x + b.placed.x) / 2, (a.placed.y + b.placed.y) / 2, Math.max(a.bottom, b.bottom)],
          measured: overlap ? -gap : Math.max(gap, 0),
          limit: overlap ? 0 : limit,
          message: overlap
            ? message("found.pieces-overlap", { a: a.name, b: b.name, over: length(-gap) })
            : message(touch ? "found.glaze-touch" : "found.glaze-gap", {
                a: a.name,
                b: b.name,
                measured: length(Math.max(gap, 0)),
                limit: length(limit),
              }),
          advice: message("do.apart", { a: a.name, b: b.name }),
          candidates: function* () {
            yield* nearestPlace(scene, b, budget);
            yield* nearestPlace(scene, a, budget);
          },
        }),
      );
    }
  });
  return found;
}

/** One finding for each shelf that sits too low over ware: it names the tallest piece and rings all. */
function headroomDrafts(scene: Scene): readonly Draft[] {
  const limit = scene.load.kiln.rules.headroom;
  const under = new Map<ShelfSolid, { readonly piece: PieceSolid; readonly gap: number }[]>();
  for (const piece of scene.pieces) {
    for (const { shelf, gap } of headrooms(scene, piece)) {
      if (gap >= limit - hair) continue;
      const list = under.get(shelf) ?? [];
      list.push({ piece, gap });
      under.set(shelf, list);
    }
  }
  return [...under].map(([shelf, list]) => {
    list.sort((a, b) => a.gap - b.gap);
    const { piece, gap } = list[0];
    return draft("headroom", {
      shelfIds: [shelf.placed.id, piece.shelf.placed.id],
      pieceIds: list.map((each) => each.piece.piece.id),
      point: [piece.placed.x, piece.placed.y, piece.top],
      level: gap < -hair ? "stop" : "check",
      measured: gap,
      limit,
      message:
        gap < -hair
          ? message("found.no-headroom", { piece: piece.name, shelf: shelf.number, over: length(-gap) })
          : message("found.headroom", {
              piece: piece.name,
              shelf: shelf.number,
              measured: length(Math.max(gap, 0)),
              limit: length(limit),
            }),
      advice: message("do.longer-posts", { shelf: shelf.number }),
      candidates: () =>
        postChoices(scene, shelf, (_, underside) => underside - shelf.plate.bottom >= limit - gap - hair),
    });
  });
}

function lidDrafts(scene: Scene): readonly Draft[] {
  const limit = scene.load.kiln.rules.lidHeadroom;
  const tall = scene.pieces
    .map((piece) => ({ piece, gap: lidGap(scene, piece) }))
    .filter(({ gap }) => gap < limit - hair)
    .sort((a, b) => a.gap - b.gap);
  const first = tall[0];
  if (!first) return [];
  const { piece, gap } = first;
  return [
    draft("lid-headroom", {
      shelfIds: [piece.shelf.placed.id],
      pieceIds: tall.map((each) => each.piece.piece.id),
      point: [piece.placed.x, piece.placed.y, piece.top],
      level: gap < -hair ? "stop" : "check",
      measured: gap,
      limit,
      message:
        gap < -hair
          ? message("found.no-lid-headroom", { piece: piece.name, over: length(-gap) })
          : message("found.lid-headroom", {
              piece: piece.name,
              measured: length(Math.max(gap, 0)),
              limit: length(limit),
            }),
      advice: message("do.shelf-lower", { shelf: piece.shelf.number }),
      candidates: () => [
        ...postChoices(
          scene,
          piece.shelf,
          (_, underside) => piece.shelf.plate.bottom - underside >= limit - gap - hair,
        ),
        {
          remedy: { kind: "take-out", pieceIds: tall.map((each) => each.piece.piece.id) },
          advice: message("do.take-out", { count: tall.length }),
        },
      ],
    }),
  ];
}
