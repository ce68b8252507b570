import { coneNames, conePositionOf, kineticsOf, rampEnd } from "#engine/heatwork";
import type { LedgerTotals } from "#engine/conduction";
import type { Grade } from "./forecast.ts";
import numericalErrors from "./numerical-error.ts";

/**
 * What is not known of a kiln nobody has fired with cones yet: standard deviations of a piece's temperature [K].
 *
 * Measured on synthetic kilns for the learning of kilns; cones narrow them. Common practice, no source.
 */
export const kilnPrior = [
  { sd: 6, words: "The sensor may read high or low; cones beside it would tell." },
  { sd: 4.5, words: "Each kiln has warm and cool heights of its own, not yet learned." },
  { sd: 4, words: "One side, or the middle, may run warmer than the drawing says." },
  { sd: 3.2, words: "No two firings of one kiln end quite alike." },
  { sd: 3, words: "Top and bottom shift against each other from firing to firing." },
] as const;

/** Relative standard deviations of an unlearned kiln [-]: power, conductivity of its brick, heat stored. */
const powerSd = 0.06;
const conductivitySd = 0.12;
const brickHeatSd = 0.1;
const loadHeatSd = 0.05;

/** Half width that holds 8 in 10 of a normal distribution, in standard deviations. */
const eightInTen = 1.2816;

/** Kelvin from one cone to the next about a cone, heated at 60 K/h [K]. */
export function kelvinPerCone(cone: string): number {
  const at = Math.min(Math.max(coneNames.indexOf(cone), 1), coneNames.length - 2);
  const end = (name: string): number => rampEnd(kineticsOf(name), 60 / 3600);
  const [colder, hotter] = [coneNames[at - 1], coneNames[at + 1]];
  return (end(hotter) - end(colder)) / (conePositionOf(hotter) - conePositionOf(colder));
}

export interface ConeUncertainty {
  /** One standard deviation of a piece's mean [cones]. */
  readonly numerical: number;
  readonly physical: number;
  /** Half width that holds 8 in 10 [cones]. */
  readonly giveOrTake: number;
  readonly reasons: readonly string[];
}

export function coneUncertainty(cone: string, grade: Grade): ConeUncertainty {
  const perCone = kelvinPerCone(cone);
  const physical = Math.sqrt(kilnPrior.reduce((sum, { sd }) => sum + sd * sd, 0)) / perCone;
  const numerical = numericalErrors[grade].piece;
  const sources = [
    ...kilnPrior.map(({ sd, words }) => ({ size: sd / perCone, words })),
    { size: numerical, words: numericalErrors[grade].words },
  ];
  sources.sort((a, b) => b.size - a.size);
  return {
    numerical,
    physical,
    giveOrTake: eightInTen * Math.hypot(physical, numerical),
    reasons: sources.map(({ words }) => words),
  };
}

/** Chance that a piece's coldest and hottest point both end within bounds, all shifted alike by a normal error [0..1]. */
export function chanceWithin(coldest: number, hottest: number, lower: number, upper: number, sd: number): number {
  return Math.max(normalBelow((upper - hottest) / sd) - normalBelow((lower - coldest) / sd), 0);
}

/**
 * Share of a standard normal distribution below x [0..1].
 *
 * Accuracy: 7.5e-8. Source: [abramowitz-stegun], 26.2.17
 */
export function normalBelow(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const tail = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const beyond = (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * tail;
  return x >= 0 ? 1 - beyond : beyond;
}

/** Half widths that hold 8 in 10 of heating time [s], energy [J] and ready time [s]. */
export function runUncertainty(
  heating: number,
  ready: number | null,
  ledger: LedgerTotals,
  shareAtFullPower: number,
): { readonly heating: number; readonly energy: number; readonly ready: number } {
  const { stored, lostBySkin } = ledger;
  const energy = Math.hypot(
    conductivitySd * lostBySkin,
    brickHeatSd * stored.brick,
    loadHeatSd * (stored.furniture + stored.ware),
  );
  // While power limits, more of it or less loss shorten the climb about in proportion, and half as much again.
  const heatingSd = Math.hypot(1.5 * powerSd * shareAtFullPower * heating, 0.01 * heating);
  const coolingSd = conductivitySd * (ready === null ? 0 : ready - heating);
  return {
    heating: eightInTen * heatingSd,
    energy: eightInTen * energy,
    ready: eightInTen * Math.hypot(heatingSd, coolingSd),
  };
}
