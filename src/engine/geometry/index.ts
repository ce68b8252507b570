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
