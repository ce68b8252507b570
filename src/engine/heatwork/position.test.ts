import { describe, expect, it } from "vitest";
import {
  coneNames,
  heatworkAlphas,
  heatworkOf,
  heatworkPosition,
  heatworkRate,
  kineticsOf,
  positionFromAlphas,
} from "./index.ts";

/** 150 C/h to 1000 C, 20 min hold, natural cooling. */
const coarse = { times: [0, 23_520, 24_720, 60_000], temperatures: [293.15, 1273.15, 1273.15, 400] };

function between(t: number): number {
  const { times, temperatures } = coarse;
  const i = Math.max(
    1,
    times.findIndex((time) => time >= t),
  );
  const share = (t - times[i - 1]) / (times[i] - times[i - 1]);
  return temperatures[i - 1] + share * (temperatures[i] - temperatures[i - 1]);
}

describe("heatwork of a history", () => {
  it("is the integral of the rate, however far apart the points are (Simpson's rule on 1 s steps)", () => {
    for (const cone of ["07", "06", "05", "04"]) {
      const kinetics = kineticsOf(cone);
      let sum = 0;
      for (let t = 0; t < 60_000; t++) {
        const [a, m, b] = [between(t), between(t + 0.5), between(t + 1)].map((temperature) =>
          heatworkRate(kinetics, temperature),
        );
        sum += (a + 4 * m + b) / 6;
      }
      expect(heatworkOf(kinetics, coarse.times, coarse.temperatures) / sum).toBeCloseTo(1, 6);
    }
  });

  it("counts cooling: the same peak cooled slowly does more", () => {
    const slow = heatworkPosition([0, 23_520, 200_000], [293.15, 1273.15, 293.15]);
    const quick = heatworkPosition([0, 23_520, 23_580], [293.15, 1273.15, 293.15]);
    expect(slow).toBeGreaterThan(quick + 0.1);
  });

  it("rises with the peak, without steps larger than one cone", () => {
    let before = -Infinity;
    for (let celsius = 560; celsius <= 1420; celsius += 1) {
      const place = heatworkPosition([0, (celsius - 20) * 36], [293.15, celsius + 273.15]);
      expect(place).toBeGreaterThanOrEqual(before);
      if (Number.isFinite(before)) expect(place - before).toBeLessThan(0.5);
      before = place;
    }
  });

  it("stays one cone inside the ends of the scale", () => {
    expect(heatworkPosition([0, 3600], [293.15, 293.15])).toBe(-23);
    expect(heatworkPosition([0, 36_000, 72_000], [293.15, 1773.15, 1773.15])).toBe(14);
  });

  it("reads cones of which one is just down", () => {
    const down = coneNames.map((_, i) => (i < coneNames.indexOf("06") ? 9 : i === coneNames.indexOf("06") ? 1 : 0.2));
    expect(positionFromAlphas(down)).toBe(-6);
  });

  it("names the first point that cannot be", () => {
    expect(() => heatworkAlphas([0, 10, 5], [300, 300, 300])).toThrow(/times\[2\] is 5/);
    expect(() => heatworkAlphas([0, 10], [300, -3])).toThrow(/temperatures\[1\] is -3/);
    expect(() => heatworkAlphas([0, 10], [300])).toThrow(/temperatures.length is 1; expected 2/);
  });
});
