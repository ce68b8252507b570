import { describe, expect, it } from "vitest";
import {
  emfAt,
  hotJunction,
  limitOfError,
  sensorError,
  temperatureFromEmf,
  terminalVoltage,
  thermocoupleRange,
} from "./index.ts";

// Table values and the inverse over the full range: verification/heatwork.ts.
describe("thermocouples", () => {
  it("adds the cold junction's voltage, not its temperature", () => {
    const measured = terminalVoltage("K", 1273.15, 298.15);
    expect(hotJunction("K", measured, 298.15)).toBeCloseTo(1273.15, 5);
    // [nist-monograph-175]: 41.2756 - 1.0002 mV.
    expect(measured).toBeCloseTo(40.2754, 3);
    expect(temperatureFromEmf("K", measured) + 25).not.toBeCloseTo(1273.15, 1);
  });

  it("gives both temperatures of a type B voltage below 42 C", () => {
    const cold = temperatureFromEmf("B", emfAt("B", 283.15), "cold");
    const hot = temperatureFromEmf("B", emfAt("B", 283.15));
    expect(cold).toBeCloseTo(283.15, 4);
    expect(hot).toBeGreaterThan(294);
    expect(emfAt("B", hot)).toBeCloseTo(emfAt("B", cold), 9);
  });

  it("names the range when asked beyond it", () => {
    expect(() => emfAt("K", 1700)).toThrow(/temperature is 1700 K; expected 3.1\d* to 1645.15 K for type K/);
    expect(() => temperatureFromEmf("S", 30)).toThrow(/voltage is 30 mV; expected -0.2356 to 18.69\d\d mV for type S/);
    expect(thermocoupleRange("N").high).toBeCloseTo(1573.15, 9);
  });

  it("says when a limit of error is carried beyond what the standard states", () => {
    expect(limitOfError("K", "special", 873.15)).toEqual({ limit: expect.closeTo(2.4, 9), stated: true });
    expect(limitOfError("K", "standard", 373.15)).toEqual({ limit: 2.2, stated: true });
    expect(limitOfError("B", "standard", 773.15).stated).toBe(false);
  });

  it("drifts with hours spent hot", () => {
    expect(sensorError({ offset: 2, driftPerHour: -0.01, hoursHot: 300 })).toBeCloseTo(-1, 12);
  });
});
