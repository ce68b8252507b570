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
