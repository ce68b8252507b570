import { describe, expect, it } from "vitest";
import { chartEndPoint, chartPosition, coneChart, heatworkPosition, type ConeKind } from "./index.ts";

const kelvin = (celsius: number): number => celsius + 273.15;
const perHour = (rate: number): number => rate / 3600;

describe("chart", () => {
  it("gives back every published value with its kind and rate", () => {
    for (const value of coneChart) {
      const read = chartEndPoint(value.cone, value.rate, value.kind);
      expect(read).toMatchObject({
        temperature: value.temperature,
        kind: value.kind,
        copies: value.copies,
        beyondChart: false,
      });
    }
  });

  // Worked by hand from the chart's 1222 C at 60 and 1243 C at 150 C/h: 1222 + 21 ln(100/60) / ln(150/60) = 1233.7 C.
  it("is linear in the log of the rate between two values", () => {
    expect(chartEndPoint("6", perHour(100))!.temperature).toBeCloseTo(kelvin(1233.707), 3);
  });

  it("says when a rate lies beyond the chart", () => {
    expect(chartEndPoint("06", perHour(300))).toMatchObject({ beyondChart: true });
    expect(chartEndPoint("06", perHour(300))!.temperature).toBeGreaterThan(kelvin(1013));
    expect(chartEndPoint("022", perHour(15))).toMatchObject({ beyondChart: true });
  });

  it.each<[string, ConeKind]>([
    ["14", "large regular"],
    ["4", "self-supporting iron-free"],
    ["20", "self-supporting regular"],
  ])("has no %s, %s", (cone, kind) => {
    expect(chartEndPoint(cone, perHour(60), kind)).toBeNull();
  });

  // The smallest step a user is shown is a quarter of a cone. Places inside an interval differ because the kinetics
  // divide it by heat work and the chart by temperature; at the cones themselves both agree (verification/heatwork.ts).
  it("agrees with the kinetics on plain ramps within a quarter of a cone, 0.06 in the mean square ([orton-chart])", () => {
    const errors: number[] = [];
    for (const rate of [15, 30, 60, 100, 150]) {
      for (let celsius = 700; celsius <= 1320; celsius += 5) {
        const end = kelvin(celsius);
        errors.push(heatworkPosition([0, (end - 300) / perHour(rate)], [300, end]) - chartPosition(end, perHour(rate)));
      }
    }
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.25);
    expect(Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length)).toBeLessThan(0.06);
  });
});
