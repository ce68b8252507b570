import { conePositionOf } from "#engine/heatwork";
import type { Forecast } from "./forecast.ts";
import type { PreparedFiring } from "./prepare.ts";
import type { RunRecord } from "./run.ts";
import { chanceWithin, coneUncertainty, runUncertainty } from "./uncertainty.ts";

/** Goes into every cache key: raise it with every change that changes a forecast. */
export const engineVersion = "2";

/** Puts what a run recorded into the form that the rest of the program reads. */
export function forecastFrom(prepared: PreparedFiring, openingTemperature: number, run: RunRecord): Forecast {
  const { load, grade, seed, mesh } = prepared;
  const { recorder, keep, ledger } = run;
  const { cone, tolerance } = load.firingClass;
  const uncertainty = coneUncertainty(cone, grade);
  const wanted = conePositionOf(cone);
  const sd = Math.hypot(uncertainty.physical, uncertainty.numerical);
  const pieces = recorder.pieces.map(({ body, trace }) => {
    const heatwork = recorder.heatworkOf(trace.of);
    return {
      pieceId: body.pieceId,
      heatwork,
      peak: trace.peak,
      history: trace.history(keep),
      giveOrTake: uncertainty.giveOrTake,
      chanceWanted: chanceWithin(
        heatwork.coldest,
        heatwork.hottest,
        wanted + tolerance.colder,
        wanted + tolerance.hotter,
        sd,
      ),
    };
  });
  const shelves = recorder.shelves.map(({ body, trace }, i) => ({
    shelfId: body.shelfId,
    heatwork: recorder.heatworkOf(trace.of),
    peak: trace.peak,
    history: trace.history(keep),
    throughDifference: recorder.throughDifference[i],
  }));
  const means = pieces.map(({ heatwork }) => heatwork.mean);
  const pick = (values: readonly number[]): number[] => keep.map((i) => values[i]);
  const run8 = runUncertainty(run.heatingEnds, run.readyAt, ledger, shareAtFullPower(run));
  return {
    grade,
    times: pick(recorder.times),
    scheduled: pick(recorder.scheduled),
    sensors: load.kiln.sensors.map((_, zone) => keep.map((i) => recorder.readings[i][zone])),
    power: pick(recorder.power),
    pieces,
    shelves,
    cones: recorder.cones.map((of) => ({ index: of.body.index, position: recorder.heatworkOf(of).mean })),
    spread: means.length > 0 ? Math.max(...means) - Math.min(...means) : 0,
    heatingEnds: run.heatingEnds,
    readyAt: run.readyAt,
    openingTemperature,
    ledger: {
      electric: ledger.electric,
      storedInBrick: ledger.stored.brick + ledger.stored.fittings,
      storedInFurniture: ledger.stored.furniture,
      storedInWare: ledger.stored.ware,
      reactions: ledger.reactions,
      lostThroughWalls: ledger.lostBySkin,
      lostByVent: ledger.lostByVent,
      imbalance: ledger.imbalance,
    },
    duty: run.available > 0 ? ledger.electric / (run.available * run.heatingEnds) : 0,
    fallsBehindAt: run.fallsBehindAt,
    uncertainty: {
      numerical: uncertainty.numerical,
      physical: uncertainty.physical,
      heating: run8.heating,
      energy: run8.energy,
      ready: run8.ready,
      reasons: uncertainty.reasons,
    },
    patches: mesh.patchCount,
    rays: prepared.rays,
    steps: run.steps,
    engineVersion,
    seed,
  };
}

function shareAtFullPower({ recorder, available, heatingEnds }: RunRecord): number {
  let full = 0;
  for (let i = 1; i < recorder.times.length && recorder.times[i] <= heatingEnds + 1e-6; i++) {
    if (recorder.power[i] >= 0.999 * available) full += recorder.times[i] - recorder.times[i - 1];
  }
  return heatingEnds > 0 ? full / heatingEnds : 0;
}
