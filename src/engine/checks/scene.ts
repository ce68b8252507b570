import { flatsOf, placeFootprint, radiusAt, type Flat, type Footprint, type RoundedBox } from "#engine/geometry";
import {
  conePackFootprint,
  conePackHeight,
  conePitch,
  footOf,
  footprintOf,
  heightOf,
  known,
  liftOf,
  shelfTypeOf,
  shelvesFromBottom,
  type Load,
  type Piece,
  type PlacedCones,
  type PlacedPiece,
  type PlacedShelf,
  type Shape,
  type ShelfType,
} from "#engine/kiln";
import type { Metres } from "#engine/units";
import type { PieceName } from "./finding.ts";
import { planDistance, type Plate } from "./plate.ts";
import type { Part } from "./solid.ts";

/** Differences below this are rounding, not a broken rule [m]. */
export const hair: Metres = 1e-5;

/** Posts are sawn and worn: a stack within this of its gap carries the shelf [m]. Common practice, no source. */
export const postPlay: Metres = 0.0005;

export interface ShelfSolid {
  readonly placed: PlacedShelf;
  readonly type: ShelfType;
  /** Counted from the bottom, from 1, as on every screen and sheet. */
  readonly number: number;
  readonly plate: Plate;
  readonly posts: readonly PostSolid[];
}

export interface PostSolid {
  readonly shelf: PlacedShelf;
  readonly lengths: readonly Metres[];
  readonly box: RoundedBox;
  /** Foot of the stack as its lengths make it, and underside of the shelf it carries. */
  readonly bottom: Metres;
  readonly top: Metres;
  readonly width: Metres;
}

export interface PieceSolid {
  readonly placed: PlacedPiece;
  readonly piece: Piece;
  readonly shape: Shape;
  readonly shelf: ShelfSolid;
  readonly name: PieceName;
  readonly footprint: Footprint;
  readonly foot: Footprint;
  readonly parts: readonly Part[];
  readonly bottom: Metres;
  readonly top: Metres;
  /** Circle in the plan that holds it. */
  readonly reach: Metres;
}

export interface ConesSolid {
  readonly placed: PlacedCones;
  readonly shelf: ShelfSolid;
  readonly part: Part;
  /** Where each cone of the row stands in the plan. */
  readonly feet: readonly (readonly [Metres, Metres])[];
}

/** A sensor's tip in the kiln's frame. */
export interface Tip {
  readonly sensor: number;
  readonly x: Metres;
  readonly y: Metres;
  readonly z: Metres;
}

/** A load as solids in the kiln's frame, made once per check. */
export interface Scene {
  readonly load: Load;
  /** From the bottom up. */
  readonly shelves: readonly ShelfSolid[];
  /** A post that carries two half shelves is listed once for each. */
  readonly posts: readonly PostSolid[];
  readonly pieces: readonly PieceSolid[];
  readonly cones: readonly ConesSolid[];
  readonly tips: readonly Tip[];
  /** The chamber's plan: its flat walls, and the radius of its round one (infinite where there is none). */
  readonly flats: readonly Flat[];
  readonly roundWall: Metres;
}

/** @throws RangeError naming a piece, shape, shelf or shelf type that the setting refers to and the load has not */
export function sceneOf(load: Load): Scene {
  const shelves = shelvesFromBottom(load.setting).map((placed, index) => shelfSolid(load, placed, index + 1));
  const byId = new Map(shelves.map((shelf) => [shelf.placed.id, shelf]));
  const { plan } = load.kiln.chamber;
  return {
    load,
    shelves,
    posts: shelves.flatMap((shelf) => shelf.posts),
    pieces: load.setting.pieces.map((placed) => pieceSolid(load, known(byId, placed.shelfId, "shelf"), placed)),
    cones: load.setting.cones.map((placed) => conesSolid(known(byId, placed.shelfId, "shelf"), placed)),
    tips: load.kiln.sensors.map((sensor, index) => {
      const radius = radiusAt(plan, sensor.azimuth) - sensor.reach;
      return {
        sensor: index,
        x: radius * Math.cos(sensor.azimuth),
        y: radius * Math.sin(sensor.azimuth),
        z: sensor.z,
      };
    }),
    flats: flatsOf(plan),
    roundWall: plan.kind === "disc" || plan.kind === "half-disc" ? plan.radius : Infinity,
  };
}

function shelfSolid(load: Load, placed: PlacedShelf, number: number): ShelfSolid {
  const type = shelfTypeOf(load, placed);
  const bottom = placed.z - type.thickness;
  const posts = placed.posts.map((post): PostSolid => {
    const width = postWidth(load, post.lengths);
    return {
      shelf: placed,
      lengths: post.lengths,
      box: { x: post.x, y: post.y, angle: 0, halfX: width / 2, halfY: width / 2, radius: 0 },
      bottom: bottom - post.lengths.reduce((sum, length) => sum + length, 0),
      top: bottom,
      width,
    };
  });
  return { placed, type, number, plate: { outline: type.outline, at: placed, bottom, top: placed.z }, posts };
}

/** Widest post of a stack; a length that is not in stock counts as wide as the widest in stock. */
function postWidth(load: Load, lengths: readonly Metres[]): Metres {
  const { posts } = load.furniture;
  const widest = (choice: typeof posts): Metres => choice.reduce((most, post) => Math.max(most, post.width), 0);
  const used = posts.filter((post) => lengths.some((length) => Math.abs(length - post.length) < postPlay));
  return used.length > 0 ? widest(used) : widest(posts);
}

function pieceSolid(load: Load, shelf: ShelfSolid, placed: PlacedPiece): PieceSolid {
  const piece = known(load.pieces, placed.pieceId, "piece");
  const shape = known(load.shapes, piece.shapeId, "shape");
  const bottom = shelf.placed.z + liftOf(load, piece);
  const footprint = placeFootprint(footprintOf(shape), placed);
  let reach = 0;
  for (const box of footprint) {
    const core = Math.hypot(box.x - placed.x, box.y - placed.y) + Math.hypot(box.halfX, box.halfY);
    reach = Math.max(reach, core + box.radius);
  }
  return {
    placed,
    piece,
    shape,
    shelf,
    name: { pieceId: piece.id, name: shape.name },
    footprint,
    foot: placeFootprint(footOf(shape), placed),
    parts: partsOf(shape, footprint, placed, bottom),
    bottom,
    top: bottom + heightOf(shape),
    reach,
  };
}

/** The same piece standing (dx, dy) further on its shelf: what a search for a better place tries. */
export function shifted(piece: PieceSolid, dx: Metres, dy: Metres): PieceSolid {
  const shift = <Body extends { readonly x: Metres; readonly y: Metres }>(body: Body): Body => ({
    ...body,
    x: body.x + dx,
    y: body.y + dy,
  });
  return {
    ...piece,
    placed: shift(piece.placed),
    footprint: piece.footprint.map(shift),
    foot: piece.foot.map(shift),
    parts: piece.parts.map((part) =>
      part.kind === "turned"
        ? shift(part)
        : { kind: "upright", box: shift(part.box), bottom: part.bottom, top: part.top },
    ),
  };
}

/** A lid fired in place counts as a block as wide as the rim. */
function partsOf(shape: Shape, footprint: Footprint, at: PlacedPiece, bottom: Metres): readonly Part[] {
  const { body } = shape;
  const [bodyBox, ...attached] = footprint as readonly [RoundedBox, ...RoundedBox[]];
  const parts: Part[] = [];
  if (body.kind === "revolution") {
    const profile = body.profile.map(([radius, z]) => [radius, bottom + z] as const);
    const [rim, rimHeight] = profile.at(-1) as readonly [number, number];
    if (shape.lidHeight > 0) profile.push([rim, rimHeight + shape.lidHeight]);
    const top = (profile.at(-1) as readonly [number, number])[1];
    parts.push({ kind: "turned", x: at.x, y: at.y, profile, bottom, top, reach: bodyBox.radius });
  } else {
    const height = body.kind === "box" ? body.height : body.thickness;
    parts.push({ kind: "upright", box: bodyBox, bottom, top: bottom + height + shape.lidHeight });
  }
  const attachments = [shape.handle, shape.spout].filter((attachment) => attachment !== null);
  attachments.forEach((attachment, i) => {
    const box = attached[i];
    parts.push({ kind: "upright", box, bottom: bottom + attachment.bottom, top: bottom + attachment.top });
  });
  return parts;
}

function conesSolid(shelf: ShelfSolid, placed: PlacedCones): ConesSolid {
  const count = placed.cones.length;
  const cos = Math.cos(placed.angle);
  const sin = Math.sin(placed.angle);
  const [box] = placeFootprint(conePackFootprint(count), placed) as readonly [RoundedBox];
  return {
    placed,
    shelf,
    part: { kind: "upright", box, bottom: shelf.placed.z, top: shelf.placed.z + conePackHeight },
    feet: placed.cones.map((_, i) => {
      const along = (i - (count - 1) / 2) * conePitch;
      return [placed.x + cos * along, placed.y + sin * along] as const;
    }),
  };
}

/** Shelves higher than this one: over its top, whether or not they stand over it in the plan. */
export function shelvesAbove(scene: Scene, shelf: ShelfSolid): readonly ShelfSolid[] {
  return scene.shelves.filter((other) => other !== shelf && other.plate.bottom >= shelf.plate.top - hair);
}

/** Height of what carries a post at (x, y): the highest shelf top not above `below`, else the floor. */
export function supportUnder(
  scene: Scene,
  x: Metres,
  y: Metres,
  below: Metres,
): { readonly z: Metres; readonly shelf: ShelfSolid | null } {
  let best: ShelfSolid | null = null;
  for (const shelf of scene.shelves) {
    if (shelf.plate.top > below + hair || (best && shelf.plate.top <= best.plate.top)) continue;
    if (planDistance(shelf.plate, x, y) <= hair) best = shelf;
  }
  return { z: best?.plate.top ?? 0, shelf: best };
}
