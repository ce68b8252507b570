import { flatsOf, type Outline } from "#engine/geometry";
import type { Metres } from "#engine/units";
import { draft, type Draft } from "./draft.ts";
import { length, mass, message } from "./message-keys.ts";
import { cornersOf, fromFrame, plateExtent, platesApart, toFrame, type Plate } from "./plate.ts";
import { postChoices } from "./post-choices.ts";
import { hair, shelvesAbove, type Scene, type ShelfSolid } from "./scene.ts";

/** Shelves against chamber, one another, floor and lid; what lies on them and who lifts them. */
export function shelfDrafts(scene: Scene): readonly Draft[] {
  return [
    ...scene.shelves.flatMap((shelf) => [...roomDrafts(scene, shelf), ...loadDrafts(scene, shelf)]),
    ...overlapDrafts(scene),
    ...bottomGapDrafts(scene),
    ...airDrafts(scene),
    ...staggerDrafts(scene),
  ];
}

/** Least distance from a plate to a chamber's wall in the plan [m]; negative where it reaches over. Exact. */
export function roomToWall(chamber: Outline, plate: Plate): Metres {
  let room = Infinity;
  for (const { nx, ny, distance } of flatsOf(chamber)) room = Math.min(room, distance - plateExtent(plate, nx, ny));
  if (chamber.kind === "disc" || chamber.kind === "half-disc") room = Math.min(room, chamber.radius - farthest(plate));
  return room;
}

/** Greatest distance of a plate from the chamber's axis [m]. */
function farthest(plate: Plate): Metres {
  const { outline, at } = plate;
  const corners = cornersOf(outline).map(([x, y]) => Math.hypot(...fromFrame(at, x, y)));
  if (outline.kind === "disc" || outline.kind === "half-disc") {
    const away = Math.hypot(at.x, at.y);
    const [axisX] = toFrame(at, 0, 0);
    // The arc's farthest point lies opposite the axis; a half disc has it only if that is on its round side.
    if (outline.kind === "disc" || -axisX <= 0 || away === 0) corners.push(away + outline.radius);
  }
  return Math.max(...corners);
}

function roomDrafts(scene: Scene, shelf: ShelfSolid): readonly Draft[] {
  const { kiln } = scene.load;
  const place = { shelfIds: [shelf.placed.id] };
  const room = roomToWall(kiln.chamber.plan, shelf.plate);
  const need = kiln.rules.shelfMargin / 2;
  const found: Draft[] = [];
  if (room < -hair) {
    found.push(
      draft("shelf-outside", {
        ...place,
        measured: -room,
        limit: 0,
        message: message("found.shelf-outside", { shelf: shelf.number, over: length(-room) }),
        advice: message("do.smaller-shelf", { shelf: shelf.number }),
      }),
    );
  } else if (room < need - hair) {
    found.push(
      draft("shelf-margin", {
        ...place,
        measured: room,
        limit: need,
        message: message("found.shelf-margin", { shelf: shelf.number, measured: length(room), limit: length(need) }),
        advice: message("do.shelf-inward", { shelf: shelf.number }),
      }),
    );
  }
  const outOfHeight = Math.max(shelf.plate.top - kiln.chamber.height, -shelf.plate.bottom);
  if (outOfHeight > hair) {
    found.push(
      draft("shelf-outside", {
        ...place,
        measured: outOfHeight,
        limit: 0,
        message: message("found.shelf-too-high", { shelf: shelf.number, over: length(outOfHeight) }),
        advice: message("do.shelf-lower", { shelf: shelf.number }),
      }),
    );
  }
  return found;
}

function loadDrafts(scene: Scene, shelf: ShelfSolid): readonly Draft[] {
  const { rules } = scene.load.kiln;
  const onIt = scene.pieces.filter((piece) => piece.shelf === shelf);
  const ware = onIt.reduce((sum, piece) => sum + piece.shape.mass, 0);
  const found: Draft[] = [];
  if (ware > rules.shelfLoad + 1e-9) {
    found.push(
      draft("shelf-load", {
        shelfIds: [shelf.placed.id],
        pieceIds: onIt.map((piece) => piece.piece.id),
        measured: ware,
        limit: rules.shelfLoad,
        message: message("found.shelf-load", {
          shelf: shelf.number,
          measured: mass(ware),
          limit: mass(rules.shelfLoad),
        }),
        advice: message("do.lighter-shelf", { over: mass(ware - rules.shelfLoad) }),
      }),
    );
  }
  if (shelf.type.mass > rules.soloLift + 1e-9) {
    found.push(
      draft("two-person-lift", {
        shelfIds: [shelf.placed.id],
        measured: shelf.type.mass,
        limit: rules.soloLift,
        message: message("found.two-person-lift", { shelf: shelf.number, measured: mass(shelf.type.mass) }),
        advice: message("do.lift-with-two"),
      }),
    );
  }
  return found;
}

function overlapDrafts(scene: Scene): readonly Draft[] {
  const found: Draft[] = [];
  scene.shelves.forEach((a, i) => {
    for (const b of scene.shelves.slice(i + 1)) {
      const inHeight = Math.min(a.plate.top, b.plate.top) - Math.max(a.plate.bottom, b.plate.bottom);
      if (inHeight <= hair) continue;
      const apart = platesApart(a.plate, b.plate);
      if (apart >= -hair) continue;
      const depth = Math.min(-apart, inHeight);
      found.push(
        draft("shelf-overlap", {
          shelfIds: [a.placed.id, b.placed.id],
          measured: depth,
          limit: 0,
          message: message("found.shelf-overlap", { shelf: a.number, other: b.number, over: length(depth) }),
          advice: message("do.shelves-apart"),
        }),
      );
    }
  });
  return found;
}

/** The highest shelf that lies under part of this one, or null. */
export function nextShelfBelow(scene: Scene, shelf: ShelfSolid): ShelfSolid | null {
  let best: ShelfSolid | null = null;
  for (const other of scene.shelves) {
    if (other === shelf || other.plate.top > shelf.plate.bottom + hair) continue;
    if (best && other.plate.top <= best.plate.top) continue;
    if (platesApart(other.plate, shelf.plate) < -hair) best = other;
  }
  return best;
}

/** True if another shelf lies under this one. */
export const hasShelfBelow = (scene: Scene, shelf: ShelfSolid): boolean => nextShelfBelow(scene, shelf) !== null;

/** The lowest shelf that covers part of this one from above, or null. */
export function nextShelfAbove(scene: Scene, shelf: ShelfSolid): ShelfSolid | null {
  return (
    shelvesAbove(scene, shelf)
      .filter((other) => platesApart(other.plate, shelf.plate) < -hair)
      .sort((a, b) => a.plate.bottom - b.plate.bottom)[0] ?? null
  );
}

function bottomGapDrafts(scene: Scene): readonly Draft[] {
  const need = scene.load.kiln.rules.bottomGap;
  return scene.shelves
    .filter((shelf) => shelf.plate.bottom < need - hair && !hasShelfBelow(scene, shelf))
    .map((shelf) =>
      draft("bottom-gap", {
        shelfIds: [shelf.placed.id],
        measured: shelf.plate.bottom,
        limit: need,
        message: message("found.bottom-gap", {
          shelf: shelf.number,
          measured: length(shelf.plate.bottom),
          limit: length(need),
        }),
        advice: message("do.posts-under-bottom", { limit: length(need) }),
        candidates: () => postChoices(scene, shelf, (gap) => gap >= need - hair),
      }),
    );
}

function airDrafts(scene: Scene): readonly Draft[] {
  const { chamber, rules } = scene.load.kiln;
  const found: Draft[] = [];
  for (const shelf of scene.shelves) {
    const above = nextShelfAbove(scene, shelf);
    const gap = (above ? above.plate.bottom : chamber.height) - shelf.plate.top;
    if (gap >= rules.airyGap - hair) continue;
    const values = { shelf: shelf.number, measured: length(gap), limit: length(rules.airyGap) };
    const numbers = { measured: gap, limit: rules.airyGap };
    if (above && !hasShelfBelow(scene, shelf)) {
      found.push(
        draft("first-gap", {
          ...numbers,
          shelfIds: [shelf.placed.id, above.placed.id],
          message: message("found.first-gap", values),
          advice: message("do.airy-first"),
        }),
      );
    } else if (!above) {
      found.push(
        draft("gap-under-lid", {
          ...numbers,
          shelfIds: [shelf.placed.id],
          message: message("found.gap-under-lid", values),
          advice: message("do.airy-top"),
        }),
      );
    }
  }
  return found;
}

/** Two half shelves side by side at one height do the work of a full shelf and give nothing of the halves' evenness. */
function staggerDrafts(scene: Scene): readonly Draft[] {
  const shortest = Math.min(...scene.load.furniture.posts.map((post) => post.length), 0.013);
  const halves = scene.shelves.filter((shelf) => shelf.type.outline.kind === "half-disc");
  const found: Draft[] = [];
  halves.forEach((a, i) => {
    const twin = halves.slice(i + 1).find((b) => Math.abs(a.placed.z - b.placed.z) < shortest - hair);
    if (!twin) return;
    found.push(
      draft("staggered-halves", {
        shelfIds: [a.placed.id, twin.placed.id],
        message: message("found.staggered-halves", { shelf: a.number, other: twin.number }),
        advice: message("do.stagger"),
      }),
    );
  });
  return found;
}
