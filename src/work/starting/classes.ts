import type { ClassRecord } from "#records";

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
