import type { StudioDocument, StudioRecord } from "#records";
import { startingClasses } from "./classes.ts";
import { startingSchedules } from "./schedules.ts";
import { startingShapes } from "./shapes.ts";

/** A studio record with usual preferences: metric, A4, a warm room, opening at 50 C for bare hands. */
export function startingStudio(name: string): StudioRecord {
  return {
    version: 1,
    id: "studio",
    name,
    language: "en",
    units: { length: "metric", temperature: "celsius", mass: "kilogram", clock: "24" },
    paper: "a4",
    currency: "EUR",
    tariff: { pricePerKilowattHour: 0.3, bands: [] },
    roomTemperature: 293.15,
    openingTemperature: 323.15,
  };
}

/** A studio with the library of shapes, classes and schedules, and nothing of its own yet. */
export function emptyStudio(name: string): StudioDocument {
  return {
    format: "spyhole-studio",
    studio: startingStudio(name),
    kilns: [],
    furniture: [],
    shapes: startingShapes,
    parties: [],
    classes: startingClasses,
    schedules: startingSchedules(),
    pieces: [],
    settings: [],
  };
}
