export { heatworkAccumulator, type HeatworkAccumulator } from "./accumulate.ts";
export { coneChart, coneKinetics, kineticsOf, type ChartValue, type ConeKinetics } from "./cone-table.ts";
export {
  coneAt,
  coneLabel,
  coneNames,
  conePositionOf,
  isConeName,
  type ConeKind,
  type ConeLabel,
  type ConePosition,
} from "./cones.ts";
export { rampEnd, heatworkRate, rampRateEndingAt, type Kinetics } from "./kinetics.ts";
export { heatworkAlphas, heatworkOf, heatworkPosition, positionFromAlphas, scalePositions } from "./position.ts";
