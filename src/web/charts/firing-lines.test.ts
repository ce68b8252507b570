import { expect, test } from "vitest";
import type { Forecast } from "#engine/firing";
import { firingLines, heatworkAlong, roundStep, valueAt } from "./firing-lines.ts";

const times = Array.from({ length: 200 }, (_, i) => i * 300);
/** 60 K an hour over room temperature, as most chart columns are fired. */
const ramp = times.map((t) => 293.15 + t / 60);

test("heatwork of cone 06 reaches 1 at the published end point of 60 °C an hour: 998 °C", () => {
  // Orton's temperature equivalents, self-supporting regular cones, 06 at 60 °C/h: 998 °C (as in reference/cones.csv).
  const end = times[ramp.findIndex((kelvin) => kelvin - 273.15 >= 998)];
  const works = heatworkAlong(times, ramp, "06");
  const down = times[works.findIndex((work) => work >= 1)];
  // 4 °C at 60 °C/h are 4 minutes; times here are 5 minutes apart.
  expect(Math.abs(down - end)).toBeLessThanOrEqual(300);
});

test("heatwork never falls, and stays near nothing until the last hour and a half", () => {
  const works = heatworkAlong(times, ramp, "06");
  for (let i = 1; i < works.length; i++) expect(works[i]).toBeGreaterThanOrEqual(works[i - 1]);
  const down = works.findIndex((work) => work >= 1);
  expect(works[down - 18]).toBeLessThan(0.05);
});

test("lines end where they are asked to, and tell the coldest piece from the hottest", () => {
  const piece = (pieceId: string, mean: number, less: number) => ({
    pieceId,
    heatwork: { coldest: mean, mean, hottest: mean },
    history: { coldest: ramp, mean: ramp.map((kelvin) => kelvin - less), hottest: ramp },
  });
  const forecast = {
    times,
    scheduled: ramp,
    sensors: [ramp],
    pieces: [piece("b", -6, 10), piece("a", -7, 40), piece("c", -5.5, 0)],
  } as unknown as Forecast;
  const lines = firingLines(forecast, 10_450);
  expect(lines.times.at(-1)).toBe(10_450);
  expect(lines.sensor.at(-1)).toBeCloseTo(293.15 + 10_450 / 60, 9);
  expect(lines.coldest!.pieceId).toBe("a");
  expect(lines.hottest!.pieceId).toBe("c");
  expect(lines.coldest!.line).toHaveLength(lines.times.length);
  expect(firingLines(forecast, 1e9).times.at(-1)).toBe(times.at(-1));
});

test("a value between two times lies between its points", () => {
  expect(valueAt([0, 10], [100, 200], 2.5)).toBe(125);
  expect(valueAt([0, 10], [100, 200], -1)).toBe(100);
  expect(valueAt([0, 10], [100, 200], 11)).toBe(200);
});

test("axis steps are round", () => {
  expect([roundStep(1000, 6), roundStep(1900, 6), roundStep(9, 10), roundStep(0.8, 4)]).toEqual([200, 500, 1, 0.2]);
});
