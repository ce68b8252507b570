import { extentAlong, placeFootprint, roomInside, type Footprint, type Outline } from "#engine/geometry";
import { footprintOf, heightOf, type Furniture, type Kiln, type Shape } from "#engine/kiln";
import type { Metres } from "#engine/units";

/** Whether a kiln can take a shape at all, alone in it; if not, which way it is too big, and how big it may be [m]. */
export type KilnFit =
  | { readonly fits: true }
  | { readonly fits: false; readonly reason: "too-wide"; readonly widest: Metres }
  | { readonly fits: false; readonly reason: "too-tall"; readonly tallest: Metres };

const quarterTurn = Math.PI / 2;
/** A piece is tried every 7.5 degrees; a round one only once. */
const turns = 24;

/**
 * Whether a shape fits a kiln alone on one of the shelves in stock, under the kiln's own rules.
 *
 * Its whole footprint must lie on the shelf and keep the distance to the wall; above the lowest posts and the shelf
 * the headroom under the lid must be left.
 *
 * @param lift  of the stilt it stands on [m]; 0 for a wiped foot
 */
export function kilnFit(kiln: Kiln, furniture: Furniture, shape: Shape, lift: Metres): KilnFit {
  const { rules, chamber } = kiln;
  const footprint = footprintOf(shape);
  const shelves = furniture.shelves.filter(
    (shelf) => shelf.count > 0 && liesIn(chamber.plan, shelf.outline, rules.shelfMargin),
  );
  const wide = shelves.filter((shelf) => standsOn(footprint, shelf.outline, chamber.plan, rules.wareToWall));
  if (wide.length === 0) {
    const widest = Math.max(0, ...shelves.map((shelf) => acrossOf(shelf.outline)));
    return { fits: false, reason: "too-wide", widest };
  }
  const thickness = Math.min(...wide.map((shelf) => shelf.thickness));
  const tallest = chamber.height - rules.bottomGap - thickness - lift - rules.lidHeadroom;
  return heightOf(shape) <= tallest ? { fits: true } : { fits: false, reason: "too-tall", tallest };
}

/** A shelf must be so much smaller across than the chamber. A half disc lies in its half. */
function liesIn(plan: Outline, shelf: Outline, margin: Metres): boolean {
  return roomInside(plan, coverOf(shelf)) >= margin / 2 - 1e-9;
}

/** A footprint as large as an outline, for asking whether it lies inside another. */
function coverOf(outline: Outline): Footprint {
  const box = { x: 0, y: 0, angle: 0 };
  switch (outline.kind) {
    case "disc":
    case "half-disc":
      return [{ ...box, halfX: 0, halfY: 0, radius: outline.radius }];
    case "rectangle":
      return [{ ...box, halfX: outline.width / 2, halfY: outline.depth / 2, radius: 0 }];
    case "polygon":
      return [{ ...box, halfX: 0, halfY: 0, radius: outline.inradius }];
  }
}

function acrossOf(outline: Outline): Metres {
  switch (outline.kind) {
    case "disc":
      return 2 * outline.radius;
    case "half-disc":
      return outline.radius;
    case "rectangle":
      return Math.min(outline.width, outline.depth);
    case "polygon":
      return 2 * outline.inradius;
  }
}

function standsOn(footprint: Footprint, shelf: Outline, plan: Outline, wareToWall: Metres): boolean {
  const round = footprint.every((box) => box.x === 0 && box.y === 0 && box.halfX === 0 && box.halfY === 0);
  for (let turn = 0; turn < (round ? 1 : turns); turn += 1) {
    const turned = placeFootprint(footprint, { x: 0, y: 0, angle: (2 * Math.PI * turn) / turns });
    if (
      bestRoom(turned, (placed) => Math.min(roomInside(shelf, placed), roomInside(plan, placed) - wareToWall)) >= -1e-9
    )
      return true;
  }
  return false;
}

/** The most room a turned footprint can have, by shifting it: from its middle, in ever smaller steps. */
function bestRoom(footprint: Footprint, room: (placed: Footprint) => Metres): Metres {
  let x = (extentAlong(footprint, -1, 0) - extentAlong(footprint, 1, 0)) / 2;
  let y = (extentAlong(footprint, 0, -1) - extentAlong(footprint, 0, 1)) / 2;
  const at = (dx: number, dy: number): Metres => room(placeFootprint(footprint, { x: dx, y: dy, angle: 0 }));
  let best = at(x, y);
  for (let step = 0.08; step > 2e-4;) {
    let [nextX, nextY, next] = [x, y, best];
    for (let way = 0; way < 8; way += 1) {
      const dx = x + step * Math.cos((way * quarterTurn) / 2);
      const dy = y + step * Math.sin((way * quarterTurn) / 2);
      const found = at(dx, dy);
      if (found > next) [nextX, nextY, next] = [dx, dy, found];
    }
    if (next > best) [x, y, best] = [nextX, nextY, next];
    else step /= 2;
  }
  return best;
}
