import { failure, success, type Outcome } from "#base";
import { bracketedRoot } from "#engine/numerics";
import { conePositionOf } from "#engine/heatwork";
import type { FiringClass, Kiln, Schedule, Segment } from "#engine/kiln";
import { kelvinFromCelsius, kelvinPerSecondFromPerHour, type Kelvin } from "#engine/units";
import { attainableRate } from "./attainable-rate.ts";
import { idealPosition } from "./ideal-curve.ts";
import { note, type Note, type NoteKey } from "./note.ts";

/** A segment of a starting schedule with the reason it is there. */
export interface ReasonedSegment {
  readonly segment: Segment;
  readonly reason: Note;
  /** Set where the kiln's power, not the ware, chose the rate. */
  readonly slowedByKiln: boolean;
}

/** A schedule of our own to start from. Numbers are settings: common practice, no source; labels and manuals first. */
export interface StartingSchedule {
  readonly schedule: Schedule;
  readonly steps: readonly ReasonedSegment[];
  /** What to mind, beyond the fixed cautions of every firing. */
  readonly notes: readonly Note[];
}

/** What stands in the load, as far as the schedule minds. */
export interface WareToFire {
  /** Unfired clay in the load: it needs drying and a slow way through the clay's changes. */
  readonly raw: boolean;
  /** Thickest wall [m]. */
  readonly thickest: number;
}

/** Why no schedule can be given. */
export interface BeyondKiln {
  readonly kind: "too hot for the kiln";
  readonly needed: Kelvin;
  readonly limit: Kelvin;
}

interface Step {
  /** [C/h] */
  readonly rate: number;
  /** [C], or `peak`, or so many C before it. */
  readonly to: number | { readonly beforePeak: number };
  readonly minutes?: number;
  readonly reason: NoteKey;
}

/** Walls above this count as thick [m]: rates below the clay's changes are cut, drying is longer. */
const thickWall = 0.01;
/** Share of the attainable rate that a schedule asks for at most: a controller needs something in hand. */
const inHand = 0.8;

/**
 * Schedules of our own for a firing class and kiln, the usual one first, each step with its reason.
 *
 * The peak is set so that an ideal kiln, cooling included, ends on the class's cone; rates are cut to what the kiln
 * can about do. A first guess for the forecast to better.
 *
 * @param ware  what is in the load; left out: raw for a bisque class, fired otherwise, walls up to 8 mm
 * @param room  [K]
 */
export function startingSchedules(
  firingClass: FiringClass,
  kiln: Kiln,
  ware: WareToFire = { raw: firingClass.kind === "bisque", thickest: 0.008 },
  room: Kelvin = 293.15,
): Outcome<readonly StartingSchedule[], BeyondKiln> {
  const plans: readonly { readonly style: "usual" | "slow"; readonly steps: readonly Step[] }[] = [
    { style: "usual", steps: stepsFor(firingClass, ware, 60, 0) },
    { style: "slow", steps: stepsFor(firingClass, ware, 40, 15) },
  ];
  const made: StartingSchedule[] = [];
  for (const { style, steps } of plans) {
    const peak = peakFor(firingClass.cone, steps, kiln, room);
    if (peak > kiln.maxTemperature) {
      return failure({ kind: "too hot for the kiln", needed: peak, limit: kiln.maxTemperature });
    }
    const reasoned = segmentsOf(steps, peak, kiln, room);
    made.push({
      schedule: {
        id: `${firingClass.id}-${style}`,
        name: `${firingClass.name}, ${style}`,
        segments: reasoned.map(({ segment }) => segment),
      },
      steps: reasoned,
      notes: notesFor(firingClass, ware),
    });
  }
  return success(made);
}

/** Steps below the peak by what the ware is; the last 100 C at a rate cones are charted for, then a hold. */
function stepsFor(firingClass: FiringClass, ware: WareToFire, endRate: number, holdMinutes: number): readonly Step[] {
  const thick = ware.thickest > thickWall;
  const slow = (rate: number): number => (thick ? Math.round(rate * 0.6) : rate);
  const end: readonly Step[] = [
    {
      rate: endRate,
      to: { beforePeak: 0 },
      minutes: holdMinutes,
      reason: holdMinutes > 0 ? "schedule.end-hold" : "schedule.end",
    },
  ];
  if (ware.raw) {
    return [
      { rate: slow(60), to: 90, minutes: thick ? 180 : 60, reason: "schedule.dry" },
      { rate: slow(80), to: 250, reason: "schedule.last-water" },
      { rate: slow(100), to: 620, reason: "schedule.clay-water-quartz" },
      { rate: slow(120), to: { beforePeak: 100 }, reason: "schedule.burn-out" },
      ...end,
    ];
  }
  if (firingClass.kind === "lustre") {
    return [
      { rate: slow(80), to: 480, reason: "schedule.oils" },
      { rate: slow(100), to: { beforePeak: 100 }, reason: "schedule.quartz-fired" },
      ...end,
    ];
  }
  return [
    { rate: slow(80), to: 120, reason: "schedule.glaze-damp" },
    { rate: slow(150), to: 520, reason: "schedule.climb" },
    { rate: slow(110), to: 620, reason: "schedule.quartz-fired" },
    { rate: slow(170), to: { beforePeak: 100 }, reason: "schedule.climb-on" },
    ...end,
  ];
}

function segmentsOf(steps: readonly Step[], peak: Kelvin, kiln: Kiln, room: Kelvin): readonly ReasonedSegment[] {
  const reasoned: ReasonedSegment[] = [];
  let from = room;
  for (const step of steps) {
    const target = typeof step.to === "number" ? kelvinFromCelsius(step.to) : peak - step.to.beforePeak;
    // A low peak swallows steps that would lie above it.
    if (target <= from) continue;
    const wanted = kelvinPerSecondFromPerHour(step.rate);
    const can = Math.max(inHand * attainableRate(kiln, target, room), kelvinPerSecondFromPerHour(10));
    const rate = Math.min(wanted, can);
    reasoned.push({
      segment: { rate, target, hold: (step.minutes ?? 0) * 60 },
      reason: note(step.reason, target),
      slowedByKiln: can < wanted,
    });
    from = target;
  }
  return reasoned;
}

/** Peak at which an ideal kiln ends on the cone [K]. */
function peakFor(cone: string, steps: readonly Step[], kiln: Kiln, room: Kelvin): Kelvin {
  const wanted = conePositionOf(cone);
  const miss = (peak: number): number => {
    const segments = segmentsOf(steps, peak, kiln, room).map(({ segment }) => segment);
    return idealPosition({ segments }, room, kelvinPerSecondFromPerHour(150)) - wanted;
  };
  // To the nearest whole degree Celsius: controllers take no more, and the forecast settles the rest.
  return kelvinFromCelsius(Math.round(bracketedRoot(miss, 750, 1750, 0.05) - 273.15));
}

function notesFor(firingClass: FiringClass, ware: WareToFire): readonly Note[] {
  const notes = [note("schedule.note.label-first"), note("schedule.note.quartz-cooling")];
  if (ware.raw) notes.unshift(note("schedule.note.bone-dry"), note("schedule.note.steam"));
  if (ware.raw && firingClass.kind !== "bisque") notes.push(note("schedule.note.once-fired"));
  if (ware.thickest > thickWall) notes.push(note("schedule.note.thick"));
  if (firingClass.kind === "lustre") notes.push(note("schedule.note.lustre-fumes"));
  return notes;
}
