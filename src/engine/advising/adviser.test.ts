import { describe, expect, it } from "vitest";
import { Cancelled, unattended } from "#base";
import { heatworkAccumulator } from "#engine/heatwork";
import type { Schedule } from "#engine/kiln";
import { adviseSchedule, idealCurve, type AdviceRequest, type FiringOutcome, type PieceWish } from "./index.ts";

/** A place in a kiln made of air: it follows the sensor with a lag [s], less or more by an offset [K]. */
interface Spot {
  readonly pieceId: string;
  readonly offset: number;
  readonly lag: number;
  /** Half the difference between the piece's coldest and hottest point [K]. */
  readonly within: number;
}

/** First-order lags behind an ideal kiln: cheap, and with both parts of a spread, the one that dies and the one that stays. */
function lagging(spots: readonly Spot[]): {
  readonly forecastFor: (schedule: Schedule) => FiringOutcome;
  runs: number;
} {
  const model = {
    runs: 0,
    forecastFor(schedule: Schedule): FiringOutcome {
      model.runs++;
      const { times, temperatures } = idealCurve(schedule.segments, 293.15, 150 / 3600);
      const end = times.at(-1)!;
      const corners = { times: [...times, end + 7200], temperatures: [...temperatures, temperatures.at(-1)! - 400] };
      const step = 60;
      const now = spots.map(() => 293.15);
      const counted = heatworkAccumulator(
        spots.flatMap(() => [293.15, 293.15]),
        { from: "010", to: "1" },
      );
      for (let t = step, corner = 1; t < end + 7200; t += step) {
        while (corners.times[corner] < t) corner++;
        const sensor = along(corners, corner, t);
        spots.forEach(({ offset, lag }, i) => {
          now[i] += (sensor + offset * Math.min(sensor / 1300, 1) - now[i]) * (1 - Math.exp(-step / lag));
        });
        counted.add(
          step,
          spots.flatMap(({ within }, i) => [now[i] - within, now[i] + within]),
        );
      }
      const pieces = spots.map(({ pieceId }, i) => ({
        pieceId,
        coldest: counted.positionOf(2 * i),
        hottest: counted.positionOf(2 * i + 1),
      }));
      return { pieces, heating: end, energy: end * 4000, cost: end * 0.0004 };
    },
  };
  return model;
}

function along({ times, temperatures }: { times: number[]; temperatures: number[] }, i: number, t: number): number {
  const share = (t - times[i - 1]) / (times[i] - times[i - 1]);
  return temperatures[i - 1] + share * (temperatures[i] - temperatures[i - 1]);
}

const schedule: Schedule = {
  id: "glaze",
  name: "Glaze 06",
  segments: [
    { rate: 150 / 3600, target: 1173.15, hold: 0 },
    { rate: 60 / 3600, target: 1271.15, hold: 0 },
  ],
};

const wishesFor = (spots: readonly Spot[], tolerance = 0.5): PieceWish[] =>
  spots.map(({ pieceId }) => ({ pieceId, least: -6 - tolerance, most: -6 + tolerance }));

const ask = (
  spots: readonly Spot[],
  more: Partial<AdviceRequest> = {},
): { request: AdviceRequest; model: { runs: number } } => {
  const model = lagging(spots);
  return {
    model,
    request: {
      schedule,
      wishes: wishesFor(spots),
      forecastFor: model.forecastFor,
      least: "time",
      maxTemperature: 1560,
      longestHold: 7200,
      margin: 0.05,
      ...more,
    },
  };
};

const spot = (pieceId: string, offset: number, lag: number, within = 1): Spot => ({ pieceId, offset, lag, within });

function expectServed(outcome: FiringOutcome, wishes: readonly PieceWish[]): void {
  for (const { pieceId, least, most } of wishes) {
    const piece = outcome.pieces.find((each) => each.pieceId === pieceId)!;
    expect(piece.coldest, pieceId).toBeGreaterThanOrEqual(least);
    expect(piece.hottest, pieceId).toBeLessThanOrEqual(most);
  }
}

describe("adviseSchedule", () => {
  it("needs no hold for an even load and only moves the target", async () => {
    const spots = [spot("a", -12, 600), spot("b", -8, 500), spot("c", -6, 900)];
    const { request, model } = ask(spots);
    const advice = await adviseSchedule(request);
    expect(advice.kind).toBe("found");
    expect(advice.best.end.hold).toBe(0);
    expectServed(advice.best.outcome, request.wishes);
    expect(advice.best.outcome).toEqual(model && request.forecastFor(advice.schedule));
    expect(advice.runs.length).toBeLessThanOrEqual(4);
  });

  it("holds just long enough for a load with a lag", async () => {
    const spots = [spot("quick", 0, 300), spot("slow", 0, 2400, 2), spot("between", -2, 1200)];
    const { request } = ask(spots);
    const advice = await adviseSchedule(request);
    expect(advice.kind).toBe("found");
    expectServed(advice.best.outcome, request.wishes);
    expect(advice.best.end.hold).toBeGreaterThan(0);
    expect(advice.runs.length).toBeLessThanOrEqual(12);
    // Against brute force: no schedule on a grid of holds and targets serves every piece in a clearly shorter time.
    let shortest = Infinity;
    for (let hold = 0; hold <= 7200; hold += 300) {
      for (let celsius = 960; celsius <= 1030; celsius += 3) {
        const segments = [schedule.segments[0], { rate: 60 / 3600, target: celsius + 273.15, hold }];
        const { pieces, heating } = request.forecastFor({ ...schedule, segments }) as FiringOutcome;
        const kept = pieces.every(({ coldest, hottest }) => coldest >= -6.45 && hottest <= -5.55);
        if (kept) shortest = Math.min(shortest, heating);
      }
    }
    expect(advice.best.outcome.heating).toBeLessThan(shortest + 600);
  });

  it("tries a slower end where a hold is not allowed", async () => {
    const { request } = ask([spot("quick", 0, 300), spot("slow", 0, 2700)], { longestHold: 0 });
    const advice = await adviseSchedule(request);
    expect(advice.kind).toBe("found");
    expect(advice.best.end.rate).toBeCloseTo(30 / 3600, 9);
    expectServed(advice.best.outcome, request.wishes);
  });

  it("lets the aim choose between a hold and a slower end", async () => {
    const spots = [spot("quick", 0, 300), spot("slow", 0, 2400)];
    const energy = (schedule: Schedule): number => (schedule.segments.at(-1)!.hold > 0 ? 2 : 1);
    const { request } = ask(spots, { endRates: [60 / 3600, 20 / 3600] });
    const dearHold: AdviceRequest = {
      ...request,
      forecastFor: async (each) => ({ ...(await request.forecastFor(each)), energy: energy(each) }),
    };
    const byTime = await adviseSchedule({ ...dearHold, least: "time" });
    const byEnergy = await adviseSchedule({ ...dearHold, least: "energy" });
    expect(byTime.best.end.rate).toBeCloseTo(60 / 3600, 9);
    expect(byEnergy.best.end.rate).toBeCloseTo(20 / 3600, 9);
    expect(byTime.best.outcome.heating).toBeLessThan(byEnergy.best.outcome.heating);
  });

  it("proves that a steady difference cannot be mended, names the pieces, and ranks computed moves", async () => {
    const spots = [spot("bottom", -30, 900), spot("middle", 0, 700), spot("top", 8, 600), spot("rim", 4, 500)];
    const { request } = ask(spots, {
      moves: ({ coldestPiece, hottestPiece }) => [
        {
          id: "take out the hottest",
          pieceIds: [hottestPiece],
          takesOut: [hottestPiece],
          forecastFor: request.forecastFor,
        },
        {
          id: "raise the coldest",
          pieceIds: [coldestPiece],
          takesOut: [],
          forecastFor: lagging([spot("bottom", -8, 900), ...spots.slice(1)]).forecastFor,
        },
      ],
    });
    const advice = await adviseSchedule(request);
    expect(advice.kind).toBe("impossible");
    if (advice.kind !== "impossible") return;
    expect(advice.bound).toBe("spread");
    expect(advice.best.standing).toMatchObject({ coldestPiece: "bottom", hottestPiece: "top" });
    expect(advice.excess).toBeGreaterThan(0);
    expect(advice.excessAtOtherTarget).toBeGreaterThan(0);
    expect(Math.abs(advice.excessAtOtherTarget - advice.excess)).toBeLessThan(0.25 * advice.excess);
    expect(advice.spread).toBeGreaterThan(advice.allowed);
    expect(advice.leaveOut).toEqual(["bottom"]);
    expect(advice.moves.map(({ move }) => move.id)).toEqual(["raise the coldest", "take out the hottest"]);
    expect(advice.moves[0].excess).toBeLessThanOrEqual(0);
    // The proof by brute force: nothing on the grid serves every piece.
    for (let hold = 0; hold <= 7200; hold += 1200) {
      for (let celsius = 950; celsius <= 1050; celsius += 2) {
        const segments = [schedule.segments[0], { rate: 30 / 3600, target: celsius + 273.15, hold }];
        const { pieces } = request.forecastFor({ ...schedule, segments }) as FiringOutcome;
        expect(pieces.every(({ coldest, hottest }) => coldest >= -6.5 && hottest <= -5.5)).toBe(false);
      }
    }
  });

  it("makes up with a hold for a target the kiln may not reach, or says that the kiln bounds it", async () => {
    const spots = [spot("a", -4, 600), spot("b", -2, 700)];
    const low = await adviseSchedule(ask(spots, { maxTemperature: 1263.15 }).request);
    expect(low.kind).toBe("found");
    expect(low.best.end.target).toBeLessThanOrEqual(1263.15);
    expect(low.best.end.hold).toBeGreaterThan(0);
    const never = await adviseSchedule(ask(spots, { maxTemperature: 1200 }).request);
    expect(never).toMatchObject({ kind: "impossible", bound: "kiln", leaveOut: [] });
  });

  it("keeps ranges of each piece's own", async () => {
    const spots = [spot("mug", 0, 500), spot("test tile", 25, 500)];
    const { request } = ask(spots);
    const wishes = [request.wishes[0], { pieceId: "test tile", least: -5.6, most: -4.5 }];
    const advice = await adviseSchedule({ ...request, wishes });
    expect(advice.kind).toBe("found");
    expectServed(advice.best.outcome, wishes);
  });

  it("stops on request and names a piece without a forecast", async () => {
    const { request } = ask([spot("a", 0, 500)]);
    await expect(adviseSchedule(request, { ...unattended, cancelled: () => true })).rejects.toThrow(Cancelled);
    const wishes = [{ pieceId: "ghost", least: -7, most: -5 }];
    await expect(adviseSchedule({ ...request, wishes })).rejects.toThrow(
      /piece "ghost" is wished for but not in the forecast/,
    );
  });
});
