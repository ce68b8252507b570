import { kelvinFromCelsius, kelvinPerSecondFromPerHour } from "#engine/units";
import type { ClassRecord, ScheduleRecord } from "#records";

type Step = readonly [degreesPerHour: number, celsius: number, holdMinutes?: number];

function schedule(id: string, name: string, steps: readonly Step[]): ScheduleRecord {
  return {
    version: 1,
    id,
    name,
    segments: steps.map(([rate, celsius, minutes = 0]) => ({
      rate: kelvinPerSecondFromPerHour(rate),
      target: kelvinFromCelsius(celsius),
      hold: minutes * 60,
    })),
  };
}

/*
 * Slow while water leaves and clay changes, quick between, 60 C/h over the last 100 C: the rate for which cones are
 * charted. Peaks end on the cone by its kinetics, cooling included, as an ideal kiln would run (classes.test.ts). The
 * slow steps are common practice, no source; a kiln's manual and a glaze's label come first.
 */
export const startingSchedules: readonly ScheduleRecord[] = [
  schedule("glaze-06-usual", "Glaze 06, usual", [
    [85, 120],
    [160, 550],
    [170, 890],
    [60, 996],
  ]),
  schedule("glaze-06-slow", "Glaze 06, slow end with soak", [
    [85, 120],
    [140, 550],
    [140, 870],
    [40, 985, 10],
  ]),
  schedule("bisque-04-usual", "Bisque 04, usual", [
    [55, 95, 60],
    [80, 250],
    [110, 620],
    [120, 950],
    [60, 1060],
  ]),
  schedule("mid-6-usual", "Mid-range 6, usual", [
    [85, 120],
    [150, 580],
    [150, 1110],
    [60, 1216],
  ]),
];

/** Firing classes a new studio starts with: low-fire glaze, bisque, mid-range. */
export const startingClasses: readonly ClassRecord[] = [
  {
    version: 1,
    id: "glaze-06",
    name: "Glaze 06",
    kind: "glaze",
    cone: "06",
    tolerance: { colder: -0.5, hotter: 0.5 },
    mayTouch: false,
    usualScheduleId: "glaze-06-usual",
    usualLift: 0.015,
  },
  {
    version: 1,
    id: "bisque-04",
    name: "Bisque 04",
    kind: "bisque",
    cone: "04",
    tolerance: { colder: -1, hotter: 1 },
    mayTouch: true,
    usualScheduleId: "bisque-04-usual",
    usualLift: null,
  },
  {
    version: 1,
    id: "mid-6",
    name: "Mid-range 6",
    kind: "mid-range",
    cone: "6",
    tolerance: { colder: -0.5, hotter: 0.5 },
    mayTouch: false,
    usualScheduleId: "mid-6-usual",
    usualLift: null,
  },
];
