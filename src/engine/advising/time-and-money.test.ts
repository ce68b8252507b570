import { describe, expect, it } from "vitest";
import { costOf, priceAt, startOptions, type Tariff } from "./index.ts";

const hour = 3600;
const day = 24 * hour;
const tariff: Tariff = {
  pricePerKilowattHour: 0.3,
  bands: [
    { from: 22, to: 6, pricePerKilowattHour: 0.12 },
    { from: 6, to: 9, pricePerKilowattHour: 0.4 },
  ],
};

describe("cost by a tariff with bands", () => {
  /*
   * Worked by hand: 8 kW for 3 h from 05:00, then straight down to 0 at 10:00.
   * 05-06: 8 kWh at 0.12 = 0.96 · 06-08: 16 kWh at 0.40 = 6.40 · 08-09: mean 6 kW, 6 kWh at 0.40 = 2.40 ·
   * 09-10: mean 2 kW, 2 kWh at 0.30 = 0.60. Together 32 kWh, 10.36.
   */
  const trace = { times: [0, 3 * hour, 5 * hour], power: [8000, 8000, 0] };

  it("matches the example worked by hand", () => {
    const { energy, cost, shares } = costOf(trace, 20_000 * day + 5 * hour, tariff);
    expect(energy / 3.6e6).toBeCloseTo(32, 9);
    expect(cost).toBeCloseTo(10.36, 9);
    expect(shares.map(({ pricePerKilowattHour, energy: joules }) => [pricePerKilowattHour, joules / 3.6e6])).toEqual([
      [0.12, expect.closeTo(8, 9)],
      [0.3, expect.closeTo(2, 9)],
      [0.4, expect.closeTo(22, 9)],
    ]);
  });

  it("is the plain price times the energy without bands, whenever it starts", () => {
    for (const start of [0, 3 * hour, 23.9 * hour]) {
      expect(costOf(trace, start, { pricePerKilowattHour: 0.25, bands: [] }).cost).toBeCloseTo(8, 9);
    }
  });

  it("does not depend on how finely the trace is given", () => {
    const fine = Array.from({ length: 301 }, (_, i) => i * 60);
    const power = fine.map((t) => (t <= 3 * hour ? 8000 : 8000 * (1 - (t - 3 * hour) / (2 * hour))));
    expect(costOf({ times: fine, power }, 5 * hour, tariff).cost).toBeCloseTo(10.36, 9);
  });

  it("takes the first of two bands that overlap and runs bands over midnight", () => {
    expect(priceAt(tariff, 23 * hour)).toBe(0.12);
    expect(priceAt(tariff, 2 * hour)).toBe(0.12);
    expect(priceAt(tariff, 6 * hour)).toBe(0.4);
    expect(
      priceAt({ ...tariff, bands: [{ from: 5, to: 8, pricePerKilowattHour: 1 }, ...tariff.bands] }, 7 * hour),
    ).toBe(1);
    expect(priceAt(tariff, -1 * hour)).toBe(0.12);
  });

  it("names a trace that falls back in time", () => {
    expect(() => costOf({ times: [0, 60, 30], power: [1, 1, 1] }, 0, tariff)).toThrow(/times\[2\] is 30/);
  });
});

describe("times to start", () => {
  const length = { heating: 8 * hour, heatingGiveOrTake: 0.5 * hour, ready: 26 * hour };
  const trace = { times: [0, 8 * hour], power: [6000, 6000] };
  const wish = {
    earliest: 0,
    latest: day,
    // Someone is there from 15:00 to 18:00 on the first day, and 06:00 to 07:30 on the second.
    attendance: [
      { from: 15 * hour, to: 18 * hour },
      { from: 30 * hour, to: 31.5 * hour },
    ],
    tariff,
    step: 900,
  };

  it("ends, early or late, while someone is there; cheapest first, then soonest ready", () => {
    const options = startOptions(length, trace, wish);
    for (const { endsEarly, endsLate } of options) {
      expect(wish.attendance.some(({ from, to }) => endsEarly >= from && endsLate <= to)).toBe(true);
    }
    // Worked by hand: the second attendance is met by starts from 22:30 to 23:00, all but the last hour in the 0.12 band.
    expect(options[0].start).toBe(22.5 * hour);
    expect(options[0].cost.cost).toBeCloseTo(7.5 * 6 * 0.12 + 0.5 * 6 * 0.4, 9);
    expect(options[0].ready).toBe(48.5 * hour);
    expect(options.map(({ cost }) => cost.cost)).toEqual(
      options.map(({ cost }) => cost.cost).toSorted((a, b) => a - b),
    );
    expect(options.map(({ start }) => start)).toContain(7.5 * hour);
  });

  it("offers nothing when nobody is there for the whole end", () => {
    expect(startOptions({ ...length, heatingGiveOrTake: 2 * hour }, trace, wish)).toEqual([]);
    expect(startOptions(length, trace, { ...wish, attendance: [] })).toEqual([]);
  });
});
