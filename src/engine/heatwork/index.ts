export { heatworkAccumulator, type HeatworkAccumulator } from "./accumulate.ts";
export { alphaFromBend, bendAtEnd, bendAtStart, bendOf } from "./bend.ts";
export { chartEndPoint, chartPosition, type ChartReading } from "./chart.ts";
export { coneEntry, type ConeChoice, type ConeContext, type ConeEntryFailure } from "./cone-entry.ts";
export { readBend, readingFromDegrees, readingFromWord, type BendWord, type ConeReading } from "./cone-reading.ts";
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
export {
  coneEquivalentOf,
  kineticsSd,
  usualLogSensor,
  type BandShare,
  type ConeEquivalent,
  type LogSensor,
} from "./equivalent.ts";
export { heatworkRate, rampEnd, rampRateEndingAt, type Kinetics } from "./kinetics.ts";
export { readHistoryCsv, type HistoryLog, type LogFault } from "./log-file.ts";
export { heatworkAlphas, heatworkOf, heatworkPosition, positionFromAlphas, scalePositions } from "./position.ts";
export type { ThermocoupleType } from "./thermocouple-functions.ts";
export {
  emfAt,
  hotJunction,
  limitOfError,
  sensorError,
  temperatureFromEmf,
  terminalVoltage,
  thermocoupleRange,
  type ErrorLimit,
  type SensorClass,
  type SensorWear,
} from "./thermocouple.ts";
