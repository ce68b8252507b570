import type { Joules, Kelvin, Seconds, Watts } from "#engine/units";

/** `preview` answers at once with a wider error; `full` is the one to act on. */
export type Grade = "preview" | "full";

/**
 * Heatwork as a place between self-supporting cones: 06 = -6 … 01 = -1, 1 = 0, 2 = 1 [-].
 * Never shown to a user as a number.
 */
export type ConePosition = number;

export interface Heatwork {
  /** At the point of the body that got least. */
  readonly coldest: ConePosition;
  readonly mean: ConePosition;
  /** At the point that got most. */
  readonly hottest: ConePosition;
}

/** Temperatures of one body at `Forecast.times` [K]. */
export interface History {
  readonly coldest: readonly Kelvin[];
  readonly mean: readonly Kelvin[];
  readonly hottest: readonly Kelvin[];
}

export interface PieceForecast {
  readonly pieceId: string;
  readonly heatwork: Heatwork;
  readonly peak: Kelvin;
  readonly history: History;
  /** Half width of the band that holds 8 firings in 10, for this piece's mean [cones]. */
  readonly giveOrTake: number;
  /** Chance that both coldest and hottest point end within the class's tolerance [0..1]. */
  readonly chanceWanted: number;
}

export interface ShelfForecast {
  readonly shelfId: string;
  readonly heatwork: Heatwork;
  readonly peak: Kelvin;
  readonly history: History;
  /** Largest difference between the mean of its top and of its underside while heating [K]: thermal stress. */
  readonly throughDifference: number;
}

export interface EnergyLedger {
  readonly electric: Joules;
  readonly storedInBrick: Joules;
  readonly storedInFurniture: Joules;
  readonly storedInWare: Joules;
  /** Water driven off and clay changed. */
  readonly reactions: Joules;
  readonly lostThroughWalls: Joules;
  readonly lostByVent: Joules;
  /** |in - stored - lost| / in, at the end of heating [-]. A run above 0.01 is an error. */
  readonly imbalance: number;
}

export interface Forecast {
  readonly grade: Grade;
  /** Times of all histories [s] from the start, heating and cooling. */
  readonly times: readonly Seconds[];
  readonly scheduled: readonly Kelvin[];
  /** What each zone's sensor reads at `times`. */
  readonly sensors: readonly (readonly Kelvin[])[];
  readonly power: readonly Watts[];
  readonly pieces: readonly PieceForecast[];
  readonly shelves: readonly ShelfForecast[];
  /** One entry per witness cone pack of the setting. */
  readonly cones: readonly { readonly index: number; readonly position: ConePosition }[];
  /** Hottest minus coldest mean heatwork over the ware [cones]. */
  readonly spread: number;
  /** End of the last segment's hold [s]. */
  readonly heatingEnds: Seconds;
  /** All ware below the safe opening temperature, lid shut [s]; null if the run was stopped before. */
  readonly readyAt: Seconds | null;
  readonly openingTemperature: Kelvin;
  readonly ledger: EnergyLedger;
  /** Share of the available power used during heating [-]. */
  readonly duty: number;
  /** First time the sensor lags the schedule by more than 15 K at full power [s], or null. */
  readonly fallsBehindAt: Seconds | null;
  readonly uncertainty: {
    /** From rays, patches and time step [cones], one standard deviation of a piece's mean. */
    readonly numerical: number;
    /** From the kiln (sensor, brick, field) and the cones [cones], one standard deviation of a piece's mean. */
    readonly physical: number;
    /** Half width that holds 8 in 10 for: heating time [s], energy [J], ready time [s]. */
    readonly heating: Seconds;
    readonly energy: Joules;
    readonly ready: Seconds;
    /** Plain words, one per source, largest first. */
    readonly reasons: readonly string[];
  };
  readonly patches: number;
  readonly rays: number;
  readonly steps: number;
  readonly engineVersion: string;
  readonly seed: number;
}
