import { describe, expect, it } from "vitest";
import { coneNames, heatworkAccumulator, heatworkAlphas, heatworkPosition } from "./index.ts";

/** 60 C/h to 1250 C, a hold of 30 min, then cooling, as (time, temperature) every `step` seconds. */
function firing(step: number): { times: number[]; temperatures: number[] } {
  const at = (t: number): number => {
    const top = 1523.15;
    const rise = (top - 300) / (60 / 3600);
    if (t < rise) return 300 + (60 / 3600) * t;
    if (t < rise + 1800) return top;
    return top - (200 / 3600) * (t - rise - 1800);
  };
  const times = Array.from({ length: Math.ceil(90_000 / step) + 1 }, (_, i) => i * step);
  return { times, temperatures: times.map(at) };
}

describe("heatworkAccumulator", () => {
  it.each([7, 60, 300])("agrees with the exact integral of the polyline at steps of %d s", (step) => {
    const { times, temperatures } = firing(step);
    const exact = heatworkAlphas(times, temperatures);
    const counted = heatworkAccumulator(temperatures.slice(0, 1));
    for (let i = 1; i < times.length; i++) counted.add(times[i] - times[i - 1], [temperatures[i]]);
    for (let cone = 0; cone < coneNames.length; cone++) {
      expect(Math.abs(counted.alphas[cone] / exact[cone] - 1)).toBeLessThan(1e-4);
    }
    expect(counted.positionOf(0)).toBeCloseTo(heatworkPosition(times, temperatures), 6);
  });

  it("keeps bodies apart and answers for a part of the scale", () => {
    const { times, temperatures } = firing(60);
    const both = heatworkAccumulator([300, 300], { from: "04", to: "10" });
    for (let i = 1; i < times.length; i++) {
      both.add(times[i] - times[i - 1], [temperatures[i], Math.max(temperatures[i] - 20, 300)]);
    }
    expect(both.positionOf(0)).toBeCloseTo(heatworkPosition(times, temperatures), 6);
    expect(both.positions()[1]).toBeLessThan(both.positionOf(0));
  });

  it("names a wrong number of temperatures", () => {
    expect(() => heatworkAccumulator([300]).add(60, [300, 300])).toThrow(/temperatures.length is 2; expected 1/);
  });
});
