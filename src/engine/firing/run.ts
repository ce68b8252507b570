import { failure, stopIfCancelled, success, type Outcome, type RunControl } from "#base";
import { networkOfMesh, ThermalSystem, TimeStepper, type LedgerTotals } from "#engine/conduction";
import type { Schedule } from "#engine/kiln";
import { plainProduct, type SparseProduct, type SparseRows } from "#engine/numerics";
import { airZones } from "./air.ts";
import { extremesOf } from "./bodies.ts";
import type { Forecast } from "./forecast.ts";
import { matterOf } from "./matter.ts";
import { allIngredients, gradeNumbers, type FiringFailure, type FiringOptions } from "./options.ts";
import type { PreparedFiring } from "./prepare.ts";
import { Program } from "./program.ts";
import { Recorder } from "./recorder.ts";
import { forecastFrom } from "./report.ts";
import { zoneControllers } from "./zones.ts";
import { scheduleFault } from "./schedule-fault.ts";

/** Longest firing and longest cooling that are followed [s]. */
const longestHeating = 72 * 3600;
const longestCooling = 96 * 3600;
/** A kiln that is waited for is looked at this often [s]; it also bounds every step while heating. */
const longestHeatingStep = 900;
/** This much below the set point at full power is falling behind [K]. */
const behind = 15;
/** A waiting kiln that gains less than this in an hour will not arrive [K]. */
const stalled = 1;
/** A ledger that misses more than this is an error, not a forecast [-]. */
const imbalanceLimit = 0.01;
/** Points kept of every history. */
const historyPoints = 240;

/** What a run leaves behind for the report. */
export interface RunRecord {
  readonly recorder: Recorder;
  readonly heatingEnds: number;
  readonly readyAt: number | null;
  readonly ledger: LedgerTotals;
  readonly available: number;
  readonly fallsBehindAt: number | null;
  readonly steps: number;
  readonly keep: readonly number[];
}

/**
 * Fires a prepared load by a schedule: heating, holds, and cooling with the lid shut until all ware may be taken out.
 *
 * @param makeProduct  multiplies with the exchange matrix; a faster kernel may stand in for the plain one
 * @returns the forecast, or why it could not be made, with words for the user
 * @throws Cancelled when `control` asks to stop
 *
 * Accuracy: `Forecast.uncertainty`, measured in docs/explanation/firing.md.
 */
export function runFiring(
  prepared: PreparedFiring,
  schedule: Schedule,
  options: FiringOptions,
  control: RunControl,
  makeProduct: (rows: SparseRows) => SparseProduct = plainProduct,
): Outcome<Forecast, FiringFailure> {
  const { load, mesh } = prepared;
  const ambient = options.ambient ?? 293.15;
  const fault = scheduleFault(schedule, load.kiln, ambient);
  if (fault) return failure(fault);
  const opening = options.openingTemperature ?? 323.15;
  const ingredients = { ...allIngredients, ...options.ingredients };
  const numbers = gradeNumbers[prepared.grade];
  const matter = matterOf(load, mesh, numbers, ingredients);
  const air = ingredients.air ? airZones(load, mesh, options.vent ?? true) : null;
  const simple = {
    ...mesh,
    links: ingredients.sideways ? mesh.links : [],
    contacts: ingredients.contacts ? mesh.contacts : [],
  };
  const network = networkOfMesh(simple, matter, air);
  const program = new Program(schedule, ambient);
  const zones = zoneControllers(load, mesh, network, program, ambient);
  const system = new ThermalSystem(network.network, prepared.exchange, zones, ambient, makeProduct);
  const start = system.uniform(ambient);
  const refine = options.stepRefinement ?? 1;
  const stepper = new TimeStepper(
    system,
    { perStep: numbers.perStep / refine, balance: numbers.balance / refine, shortest: 0.01, longest: 3600 },
    watchedNodes(mesh, network.cellNodes),
    start,
  );
  const highestTarget = Math.max(...schedule.segments.map(({ target }) => target));
  const recorder = new Recorder(mesh, network, stepper.state, load.firingClass.cone, highestTarget);
  const available = zones.reduce((sum, zone) => sum + zone.available, 0);
  const powerNow = (): number => zones.reduce((sum, zone) => sum + zone.power, 0);
  const readings = (): number[] => zones.map((zone) => zone.reads);
  const note = (heating: boolean): void => {
    const now = { scheduled: program.setPoint(stepper.time), readings: readings(), power: powerNow() };
    recorder.note(stepper.time, stepper.state, now, heating);
  };
  const take = (until: number): FiringFailure | null => {
    const taken = stepper.step(until);
    if (!taken.ok) return noSolution(stepper.time);
    const middle = taken.value * (2 - Math.SQRT2);
    recorder.count(middle, stepper.middle);
    recorder.count(taken.value - middle, stepper.state);
    return null;
  };

  const nominal = nominalLength(schedule, ambient);
  let fallsBehindAt: number | null = null;
  let arrival = Infinity;
  let waiting: { time: number; reading: number } | null = null;
  note(true);
  while (program.phase !== "done") {
    stopIfCancelled(control);
    control.progress(Math.min(0.85, (0.85 * stepper.time) / nominal), "heating");
    const before = { time: stepper.time, reading: program.furthest(readings()) };
    const failed = take(Math.min(program.ends, arrival, stepper.time + longestHeatingStep));
    if (failed) return failure(failed);
    note(true);
    const after = { time: stepper.time, reading: program.furthest(readings()) };
    const full = powerNow() >= 0.999 * available;
    if (fallsBehindAt === null && program.hasRate && full && program.slope >= 0) {
      if (after.reading < program.setPoint(after.time) - behind) fallsBehindAt = after.time;
    }
    if (program.phase === "wait" && full) {
      waiting ??= after;
      if (after.time - waiting.time > 3600) {
        if (after.reading - waiting.reading < stalled) return failure(cannotReach(program, schedule, after.reading));
        waiting = after;
      }
    } else {
      waiting = null;
    }
    let changed = false;
    while (program.advance(before, after)) changed = true;
    if (changed) stepper.restart();
    arrival = program.arrival(before, after);
    if (stepper.time > longestHeating) return failure(cannotReach(program, schedule, after.reading));
  }
  const heatingEnds = stepper.time;
  const ledger = stepper.ledger.totals(stepper.contents);

  for (const zone of zones) zone.off = true;
  stepper.restart();
  let readyAt: number | null = null;
  // Ware decides when a kiln may be opened; without any, shelves, and in an empty kiln the sensors.
  const watched = recorder.pieces.length > 0 ? recorder.pieces : recorder.shelves;
  const hottest = (): number =>
    watched.length > 0
      ? Math.max(...watched.map(({ trace }) => extremesOf(stepper.state, trace.of.nodes)[1]))
      : Math.max(...readings());
  const startOfCooling = hottest();
  let hot = startOfCooling;
  while (readyAt === null && stepper.time < heatingEnds + longestCooling) {
    stopIfCancelled(control);
    const cooled = (startOfCooling - hot) / Math.max(startOfCooling - opening, 1);
    control.progress(0.85 + 0.15 * Math.min(Math.max(cooled, 0), 1), "cooling");
    if (hot <= opening) {
      readyAt = stepper.time;
      break;
    }
    const before = { time: stepper.time, hot };
    const failed = take(heatingEnds + longestCooling);
    if (failed) return failure(failed);
    note(false);
    hot = hottest();
    if (hot <= opening) {
      readyAt = before.time + ((before.hot - opening) / (before.hot - hot)) * (stepper.time - before.time);
    }
  }
  const whole = stepper.ledger.totals(stepper.contents);
  const imbalance = Math.max(ledger.imbalance, whole.imbalance);
  if (!(imbalance <= imbalanceLimit)) return failure(doesNotBalance(imbalance));
  control.progress(1, "done");
  return success(
    forecastFrom(prepared, opening, {
      recorder,
      heatingEnds,
      readyAt,
      ledger: { ...ledger, imbalance },
      available,
      fallsBehindAt,
      steps: stepper.counts.steps,
      keep: thinned(recorder.times, heatingEnds),
    }),
  );
}

/** Nodes whose error chooses the step: ware and shelves, and brick from its hot face in. Not coils and sensors. */
function watchedNodes(mesh: PreparedFiring["mesh"], cellNodes: readonly Int32Array[]): Int32Array {
  return Int32Array.from(
    mesh.cells.flatMap((cell, c) => (mesh.bodies[cell.body].kind === "sensor" ? [] : [...cellNodes[c]])),
  );
}

function nominalLength(schedule: Schedule, ambient: number): number {
  let at = ambient;
  let length = 1;
  for (const { rate, target, hold } of schedule.segments) {
    length += Math.abs(target - at) / (rate === "full" ? 0.05 : rate) + hold;
    at = target;
  }
  return length;
}

/** Indices of at most `historyPoints` notes, evenly spread, with the first, the last and the end of heating. */
function thinned(times: readonly number[], heatingEnds: number): readonly number[] {
  const last = times.length - 1;
  if (last < historyPoints) return times.map((_, i) => i);
  const keep = new Set([0, last, times.findIndex((time) => time >= heatingEnds - 1e-6)]);
  for (let i = 0; i < historyPoints - 3; i++) keep.add(Math.round((i * last) / (historyPoints - 3)));
  return [...keep].sort((a, b) => a - b);
}

const celsius = (kelvin: number): string => `${Math.round(kelvin - 273.15)} C`;

function cannotReach(program: Program, schedule: Schedule, reached: number): FiringFailure {
  const target = schedule.segments[program.segment]?.target ?? reached;
  return {
    kind: "cannot-reach",
    segment: program.segment,
    target,
    reached,
    message:
      `Segment ${program.segment + 1} asks for ${celsius(target)}, but with this load and this power the kiln stops ` +
      `rising at ${celsius(reached)}. Check rows and supply voltage, or ask for less.`,
  };
}

function doesNotBalance(imbalance: number): FiringFailure {
  return {
    kind: "does-not-balance",
    imbalance,
    message:
      `The computed energy does not balance: ${(100 * imbalance).toFixed(1)} % is missing. ` +
      "This is a fault of the computation, not of the load; please report it with this setting.",
  };
}

function noSolution(time: number): FiringFailure {
  return {
    kind: "no-solution",
    time,
    message:
      `The temperatures could not be computed beyond ${(time / 3600).toFixed(2)} h. ` +
      "This is a fault of the computation, not of the load; please report it with this setting.",
  };
}
