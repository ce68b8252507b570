export { forecastFiring } from "./forecast-firing.ts";
export type {
  ConePosition,
  EnergyLedger,
  Forecast,
  Grade,
  Heatwork,
  History,
  PieceForecast,
  ShelfForecast,
} from "./forecast.ts";
export { allIngredients, type FiringFailure, type FiringOptions, type Ingredients } from "./options.ts";
export { prepareFiring, preparedFrom, type PreparedFiring } from "./prepare.ts";
export { engineVersion } from "./report.ts";
export { runFiring } from "./run.ts";
export { kelvinPerCone } from "./uncertainty.ts";
