export {
  coreCorners,
  distanceBetweenBoxes,
  distanceBetweenFootprints,
  distanceToBox,
  distanceToFootprint,
  extentAlong,
  farthestFrom,
  placeFootprint,
  type Footprint,
  type Placement,
  type RoundedBox,
} from "./footprint.ts";
export { areaOf, circumradius, flatsOf, radiusAt, roomInside, type Flat, type Outline } from "./outline.ts";
export {
  boxFace,
  solidKind,
  solidsBuilder,
  solidStride,
  type Band,
  type Box,
  type Chord,
  type Panel,
  type Plate,
  type Solids,
  type SolidsBuilder,
} from "./solids.ts";
export { buildHierarchy, type Hierarchy } from "./hierarchy.ts";
export { exhaustiveTracer, hierarchyTracer, rayBatch, type RayBatch, type Tracer } from "./nearest-hit.ts";
