import { assert, constantFrom, property } from "fast-check";
import { describe, expect, it } from "vitest";
import { celsiusFromKelvin } from "#engine/units";
import { coneAt, coneEntry, coneLabel, coneNames, conePositionOf } from "./index.ts";

describe("cones are text", () => {
  it("places them: 06 = -6 … 01 = -1, 1 = 0, 2 = 1, halves between", () => {
    expect(["022", "06", "05.5", "01", "1", "2", "5.5", "14"].map(conePositionOf)).toEqual([
      -22, -6, -5.5, -1, 0, 1, 4.5, 13,
    ]);
    for (const name of coneNames) expect(coneAt(conePositionOf(name))).toBe(name);
  });

  it.each(["6.3", "06.3", "0", "-6", "6 ", "", "1e1", "+6"])("refuses %j as a name", (text) => {
    expect(() => conePositionOf(text)).toThrow(/expected a cone written as text/);
  });

  it("says low or high fire beside the name", () => {
    expect(coneLabel("06")).toEqual({ name: "06", range: "low", fire: "low fire" });
    expect(coneLabel("6")).toEqual({ name: "6", range: "mid", fire: "high fire" });
    expect(coneLabel("018").range).toBe("very low");
    expect(coneLabel("10").range).toBe("high");
  });
});

describe("cone entry", () => {
  it("asks, with both temperatures, when 6 is typed for a class of 06, and the other way round", () => {
    const six = coneEntry("6", { classCone: "06" });
    expect(six).toMatchObject({
      ok: false,
      failure: { kind: "ask", why: "sign", entered: { cone: "6" }, likely: { cone: "06" } },
    });
    if (!six.ok && six.failure.kind === "ask") {
      // [orton-chart], self-supporting at 60 C/h.
      expect(celsiusFromKelvin(six.failure.entered.temperature)).toBeCloseTo(1222, 6);
      expect(celsiusFromKelvin(six.failure.likely.temperature)).toBeCloseTo(998, 6);
    }
    expect(coneEntry("06", { classCone: "6" })).toMatchObject({
      ok: false,
      failure: { why: "sign", likely: { cone: "6" } },
    });
    expect(coneEntry("5", { classCone: "06" })).toMatchObject({
      ok: false,
      failure: { why: "sign", likely: { cone: "05" } },
    });
  });

  it("asks about the cones around 1 too, where signs lie close together", () => {
    expect(coneEntry("1", { classCone: "01" })).toMatchObject({ ok: false, failure: { why: "sign" } });
  });

  it("asks about a cone far from the class, and takes a near one", () => {
    expect(coneEntry("010", { classCone: "06" })).toMatchObject({ ok: false, failure: { why: "far" } });
    expect(coneEntry("05", { classCone: "06" })).toEqual({ ok: true, value: "05" });
    expect(coneEntry("05½", { classCone: "06" })).toEqual({ ok: true, value: "05.5" });
  });

  it("takes the entry once it was confirmed", () => {
    expect(coneEntry("6", { classCone: "06" }, true)).toEqual({ ok: true, value: "6" });
  });

  it.each(["06", "cone 06", "Cone 06", "^06", " 06 ", "O6", "c06"])("reads %j", (text) => {
    expect(coneEntry(text, { classCone: "06" })).toEqual({ ok: true, value: "06" });
  });

  it("names what is no cone and the nearest that is", () => {
    expect(coneEntry("06.3", { classCone: "06" })).toEqual({
      ok: false,
      failure: { kind: "not a cone", text: "06.3", nearest: "06" },
    });
    expect(coneEntry("998", { classCone: "06" })).toMatchObject({ failure: { kind: "not a cone", nearest: null } });
  });

  it("never gives back a cone of the other sign without having asked", () => {
    const cones = constantFrom(...coneNames);
    assert(
      property(cones, cones, (classCone, typed) => {
        const read = coneEntry(typed, { classCone });
        return (
          !read.ok ||
          (read.value === typed && read.value.startsWith("0") === classCone.startsWith("0")) ||
          Math.abs(conePositionOf(typed) - conePositionOf(classCone)) <= 3
        );
      }),
      { seed: 1 },
    );
  });
});
