import { describe, expect, it } from "vitest";
import {
  bricks,
  cordierite,
  earthenware,
  elementWire,
  heatContentAt,
  heatContentOf,
  highAlumina,
  lineAt,
  rawClay,
  siliconCarbide,
  specificHeatAt,
  stoneware,
} from "./index.ts";

const solids = [...Object.values(bricks), cordierite, siliconCarbide, highAlumina, earthenware, stoneware, elementWire];

describe("heat content", () => {
  it("is the integral of the specific heat, beyond the grid too", () => {
    for (const at of [150, 205, 480.5, 1273.15, 1999, 2100]) {
      const slope = (heatContentAt(earthenware.heat, at + 1e-3) - heatContentAt(earthenware.heat, at - 1e-3)) / 2e-3;
      expect(slope).toBeCloseTo(specificHeatAt(earthenware.heat, at), 4);
    }
  });

  it("names a table that is out of order", () => {
    expect(() =>
      heatContentOf([
        [20, 800],
        [10, 900],
      ]),
    ).toThrow("points[1][0]");
    expect(() => heatContentOf([[20, -1]])).toThrow("points[0][1]");
  });

  // Source: [materials-ware]: MacGee 1926, flint and feldspar bodies 290 cal/g from 0 to 1050 C.
  it("of fired clay agrees with calorimetry", () => {
    const mean = (heatContentAt(earthenware.heat, 1323.15) - heatContentAt(earthenware.heat, 273.15)) / 1050;
    expect(mean).toBeGreaterThan(1160 * 0.93);
    expect(mean).toBeLessThan(1160 * 1.03);
  });

  // Source: [materials-ware]: raw kaolin and ball clay about 500 cal/g from 0 to 1000 C, reactions included.
  it("of raw clay with its reactions stays below what pure clay takes", () => {
    const body = heatContentAt(earthenware.heat, 1273.15) - heatContentAt(earthenware.heat, 273.15);
    const reactions = rawClay.dehydroxylation.heat + rawClay.onceOnly.reduce((sum, { heat }) => sum + heat, 0);
    expect(body + reactions).toBeGreaterThan(1.2e6);
    expect(body + reactions).toBeLessThan(2.09e6);
  });
});

describe("solids", () => {
  it.each(solids.map((solid) => [solid.name, solid] as const))("%s is sound from 20 to 1300 C", (_, solid) => {
    for (const at of [293.15, 800, 1273.15, 1573.15]) {
      expect(lineAt(solid.conductivity, at)).toBeGreaterThan(0.05);
      expect(lineAt(solid.emissivity, at)).toBeGreaterThan(0.3);
      expect(lineAt(solid.emissivity, at)).toBeLessThanOrEqual(1);
      expect(specificHeatAt(solid.heat, at)).toBeGreaterThan(400);
    }
    for (const property of ["density", "conductivity", "heat", "emissivity"]) {
      expect(solid.trust.map((entry) => entry.property)).toContain(property);
    }
  });

  // Source: [materials-brick]: 0.20 to 0.32 W/(m K) at 1000 C between four sources.
  it("puts firebrick of group 23 amid its sources", () => {
    expect(lineAt(bricks["23"].conductivity, 1273.15)).toBeGreaterThan(0.19);
    expect(lineAt(bricks["23"].conductivity, 1273.15)).toBeLessThan(0.32);
  });
});
