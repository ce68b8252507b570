import { describe, expect, it } from "vitest";
import { coneKinetics, coneNames, heatworkOf, heatworkRate, kineticsOf, rampEnd, rampRateEndingAt } from "./index.ts";

const perHour = (rate: number): number => rate / 3600;

describe("kinetics", () => {
  it.each(coneKinetics.map((row) => [row.cone, row.kind, row.kinetics] as const))(
    "of %s, %s: the rate never falls with temperature and is the slope of its integral",
    (_cone, _kind, kinetics) => {
      let before = 0;
      for (let temperature = 700; temperature < 1900; temperature += 0.5) {
        const rate = heatworkRate(kinetics, temperature);
        expect(rate).toBeGreaterThanOrEqual(before * (1 - 1e-9));
        before = rate;
        if (rate < 1e-12) continue;
        const h = 1e-3;
        const slope =
          (rampRateEndingAt(kinetics, temperature + h) - rampRateEndingAt(kinetics, temperature - h)) / (2 * h);
        expect(Math.abs(slope / rate - 1)).toBeLessThan(1e-3);
      }
    },
  );

  it.each([2, 15, 60, 100, 150, 300, 900])("ends a ramp of %d C/h where the integral is the rate", (rate) => {
    for (const cone of coneNames) {
      const end = rampEnd(kineticsOf(cone), perHour(rate));
      expect(rampRateEndingAt(kineticsOf(cone), end) * 3600).toBeCloseTo(rate, 6);
      expect(heatworkOf(kineticsOf(cone), [0, (end - 300) / perHour(rate)], [300, end])).toBeCloseTo(1, 6);
    }
  });

  it("keeps the cones in order on ramps from 15 to 600 C/h", () => {
    for (const rate of [15, 30, 60, 150, 300, 600]) {
      const ends = coneNames.map((cone) => rampEnd(kineticsOf(cone), perHour(rate)));
      for (let i = 1; i < ends.length; i++) expect(ends[i], `${coneNames[i]} at ${rate}`).toBeGreaterThan(ends[i - 1]);
    }
  });

  it("names what is wrong", () => {
    expect(() => kineticsOf("06.3")).toThrow(
      /cone is "06.3", self-supporting regular; expected a cone and kind of the chart/,
    );
    expect(() => rampEnd(kineticsOf("06"), 0)).toThrow(/rate is 0; expected a finite number above 0 K\/s/);
  });
});
