import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { coneChart, coneKinetics } from "#engine/heatwork";
import { endAt, fitCones, kinds, readChart, rms } from "../tools/cone-fit.ts";

const chart = readChart();
const fitted = fitCones(chart);

describe("the fit of the cones' kinetics to the chart [orton-chart]", () => {
  it("is what the engine carries: run tools/fit-cones.ts when this fails", () => {
    expect(coneKinetics.map(({ cone, kind }) => [cone, kind])).toEqual(fitted.map(({ cone, kind }) => [cone, kind]));
    fitted.forEach(({ kinetics }, i) => {
      expect(coneKinetics[i].kinetics.end).toBeCloseTo(kinetics.end, 2);
      expect(coneKinetics[i].kinetics.slope).toBeCloseTo(kinetics.slope, 3);
      expect(coneKinetics[i].kinetics.curvature).toBeCloseTo(kinetics.curvature, 3);
    });
    expect(coneChart).toHaveLength(chart.length);
    const report = readFileSync(new URL("../docs/reference/cone-fit.md", import.meta.url), "utf8");
    expect(report).toContain("| 06 | 998.3 |");
  });

  it("leaves out the two values that contradict each other, and nothing else", () => {
    const lines = readFileSync(new URL("../src/engine/heatwork/data/cones.csv", import.meta.url), "utf8")
      .trim()
      .split("\n");
    expect(chart).toHaveLength(lines.length - 1 - 2);
    expect(chart.some(({ cone, kind }) => cone === "14" && kind === "large regular")).toBe(false);
  });

  // The bar: a plain Arrhenius fit of two numbers per cone to the same chart, as found before this project's first line.
  const errorsAt = (kind: string, rate: number): number[] =>
    fitted
      .filter((one) => one.kind === kind && one.values.length >= 3)
      .map((one) => one.leftOut[one.values.findIndex((value) => value.rate === rate)]!);

  it.each([
    [15, 6.7],
    [60, 2.8],
    [150, 4.7],
  ])("predicts a left-out value at %d C/h better than plain Arrhenius (RMS below %d C)", (rate, bar) => {
    expect(rms(errorsAt(kinds[0], rate))).toBeLessThan(bar);
  });

  it("meets all three rates to 1.3 C in the mean square, both self-supporting families", () => {
    for (const kind of kinds.slice(0, 2)) {
      const full = fitted.filter((one) => one.kind === kind && one.values.length >= 3);
      const errors = full.flatMap((one) => one.values.map(({ rate, celsius }) => endAt(one.kinetics, rate) - celsius));
      expect(errors.length).toBeGreaterThan(35);
      expect(rms(errors)).toBeLessThan(1.3);
    }
  });

  it("computes left-out errors that a refit without the value confirms", () => {
    const out = chart.find(({ cone, kind, rate }) => cone === "05" && kind === kinds[0] && rate === 150)!;
    const without = fitCones(chart.filter((value) => value !== out)).find(
      ({ cone, kind }) => cone === "05" && kind === kinds[0],
    )!;
    const stated = fitted.find(({ cone, kind }) => cone === "05" && kind === kinds[0])!.leftOut[2]!;
    expect(endAt(without.kinetics, 150) - out.celsius).toBeCloseTo(stated, 0);
  });
});
