import { describe, expect, it } from "vitest";
import { coneEquivalentOf, usualLogSensor } from "./index.ts";

const toCone06 = { times: [0, (998 - 20) * 60], temperatures: [293.15, 1271.15] };

describe("cone equivalent of a history", () => {
  it("names the cone and gives a band around it", () => {
    const { cone, position, low, high, endRate, peak } = coneEquivalentOf(toCone06.times, toCone06.temperatures);
    expect(cone).toBe("06");
    expect(low).toBeLessThan(position);
    expect(high).toBeGreaterThan(position);
    expect(endRate! * 3600).toBeCloseTo(60, 6);
    expect(peak).toBe(1271.15);
  });

  // design.md section 6, worked from the chart: 7.5 C below 998 is 0.34 of the 22 C to cone 07; 7.5 above is 0.22.
  it("moves by about -0.4 and +0.2 cone at 06 for the full limit of a standard type K", () => {
    const off = (offset: number): number =>
      coneEquivalentOf(toCone06.times, toCone06.temperatures, { ...usualLogSensor, offset }).position;
    expect(off(7.5) - off(0)).toBeCloseTo(-0.35, 1);
    expect(off(-7.5) - off(0)).toBeCloseTo(0.2, 1);
  });

  it("is surer with a better or a compared sensor", () => {
    const width = (sensor: Partial<typeof usualLogSensor>): number => {
      const { low, high } = coneEquivalentOf(toCone06.times, toCone06.temperatures, { ...usualLogSensor, ...sensor });
      return high - low;
    };
    expect(width({ grade: "special" })).toBeLessThan(width({}));
    expect(width({ type: "S" })).toBeLessThan(width({ grade: "special" }));
    expect(width({ offsetSd: 1 })).toBeLessThan(width({}));
  });

  it("takes the known offset off the readings", () => {
    const read = toCone06.temperatures.map((temperature) => temperature + 5);
    const known = coneEquivalentOf(toCone06.times, read, { ...usualLogSensor, offset: 5 });
    expect(known.position).toBeCloseTo(coneEquivalentOf(toCone06.times, toCone06.temperatures).position, 9);
  });

  it("knows the end rate with a hold in it, and none for a history that hardly rises", () => {
    const held = coneEquivalentOf([0, 36_000, 39_600], [293.15, 1271.15, 1271.15]);
    expect(held.endRate! * 3600).toBeCloseTo(97.8, 0);
    expect(coneEquivalentOf([0, 3600], [293.15, 320]).endRate).toBeNull();
  });
});
