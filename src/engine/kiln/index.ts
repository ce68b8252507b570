export { conePackFootprint, conePackHeight, conePitch } from "./cone-pack.ts";
export type { Furniture, PostType, ShelfMaterial, ShelfType, StiltType } from "./furniture.ts";
export {
  powerOf,
  type Chamber,
  type ElementRow,
  type Kiln,
  type Lining,
  type LoadingRules,
  type Sensor,
  type Vent,
  type WallSide,
} from "./kiln.ts";
export { usualRules } from "./rules.ts";
export type { Schedule, Segment } from "./schedule.ts";
export {
  known,
  liftOf,
  shapeOf,
  shelfTypeOf,
  shelvesFromBottom,
  type Load,
  type PlacedCones,
  type PlacedPiece,
  type PlacedPost,
  type PlacedShelf,
  type Setting,
} from "./setting.ts";
export { bodyRadius, footOf, footprintOf, heightOf } from "./shape-measures.ts";
export type { Attachment, Body, BodyState, FiringClass, Piece, Shape } from "./ware.ts";
