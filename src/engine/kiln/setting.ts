import type { Metres, Radians } from "#engine/units";
import type { ShelfType, Furniture } from "./furniture.ts";
import type { Kiln } from "./kiln.ts";
import type { FiringClass, Piece, Shape } from "./ware.ts";

/** A stack of posts standing on the floor or on the shelf below; lengths from the bottom up. */
export interface PlacedPost {
  readonly x: Metres;
  readonly y: Metres;
  readonly lengths: readonly Metres[];
}

/** A shelf in the chamber. `z` is its top face. The shelf's outline is turned by `angle` and moved to (x, y). */
export interface PlacedShelf {
  readonly id: string;
  readonly typeId: string;
  readonly x: Metres;
  readonly y: Metres;
  readonly angle: Radians;
  readonly z: Metres;
  /** Stacks that carry it. */
  readonly posts: readonly PlacedPost[];
}

/** A piece on a shelf, in the kiln's plan frame. Its height above the shelf is its stilt's lift. */
export interface PlacedPiece {
  readonly pieceId: string;
  readonly shelfId: string;
  readonly x: Metres;
  readonly y: Metres;
  readonly angle: Radians;
  /** Kept where it is when a new proposal is made. */
  readonly fixed: boolean;
}

/** A row of witness cones in one holder: guide (one cooler), firing, guard (one hotter). */
export interface PlacedCones {
  readonly shelfId: string;
  readonly x: Metres;
  readonly y: Metres;
  readonly angle: Radians;
  readonly cones: readonly string[];
}

/** An arrangement: shelves on posts, pieces and cones on shelves. */
export interface Setting {
  readonly shelves: readonly PlacedShelf[];
  readonly pieces: readonly PlacedPiece[];
  readonly cones: readonly PlacedCones[];
}

/** Everything that a check or a forecast needs to know of one load. */
export interface Load {
  readonly kiln: Kiln;
  readonly furniture: Furniture;
  readonly firingClass: FiringClass;
  readonly shapes: ReadonlyMap<string, Shape>;
  readonly pieces: ReadonlyMap<string, Piece>;
  readonly setting: Setting;
}

/** Looks up a record a setting refers to. @throws RangeError naming the id if it is missing: the caller validated. */
export function known<Value>(records: ReadonlyMap<string, Value>, id: string, what: string): Value {
  const value = records.get(id);
  if (value === undefined) throw new RangeError(`${what} "${id}" is not in this load`);
  return value;
}

export function shelfTypeOf(load: Load, shelf: PlacedShelf): ShelfType {
  const type = load.furniture.shelves.find((candidate) => candidate.id === shelf.typeId);
  if (!type) throw new RangeError(`shelf type "${shelf.typeId}" is not in this load`);
  return type;
}

/** How far a piece stands above its shelf [m]. */
export function liftOf(load: Pick<Load, "furniture">, piece: Piece): Metres {
  if (piece.stiltId === null) return 0;
  return load.furniture.stilts.find((stilt) => stilt.id === piece.stiltId)?.lift ?? 0;
}

export function shapeOf(load: Load, pieceId: string): Shape {
  return known(load.shapes, known(load.pieces, pieceId, "piece").shapeId, "shape");
}

/** Shelves from the bottom up; shelf numbers on every screen and sheet are this order, counted from 1. */
export function shelvesFromBottom(setting: Setting): readonly PlacedShelf[] {
  return [...setting.shelves].sort((a, b) => a.z - b.z || a.x - b.x || a.id.localeCompare(b.id));
}
