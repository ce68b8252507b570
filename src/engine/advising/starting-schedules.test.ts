import { describe, expect, it } from "vitest";
import { conePositionOf } from "#engine/heatwork";
import { usualRules, type FiringClass, type Kiln, type Lining } from "#engine/kiln";
import { celsiusFromKelvin, kelvinPerHour } from "#engine/units";
import {
  attainableRate,
  fallsBehind,
  idealPosition,
  scheduleFaults,
  startingSchedules,
  type WareToFire,
} from "./index.ts";

const lining: Lining = {
  thickness: 0.075,
  conductivity: { base: 0.11, slope: 1.1e-4 },
  density: 500,
  heatCapacity: 1050,
  emissivity: 0.75,
};
/** Our own round kiln of 182 l and 11.5 kW, as in the demo studio. */
const kiln: Kiln = {
  id: "alder",
  name: "Alder",
  opening: "lid",
  chamber: { plan: { kind: "polygon", sides: 10, inradius: 0.29, rotation: 0 }, height: 0.69 },
  wall: lining,
  lid: lining,
  floor: lining,
  rows: Array.from({ length: 6 }, (_, i) => ({
    z: 0.06 + 0.115 * i,
    height: 0.024,
    power: 1917,
    zone: 0,
    condition: 1,
  })),
  ratedVoltage: 240,
  supplyVoltage: 240,
  sensors: [{ azimuth: 1.2, z: 0.345, reach: 0.025, diameter: 0.008, emissivity: 0.8, type: "K", offset: 0, lag: 20 }],
  vent: null,
  spyholes: [],
  maxTemperature: 1563.15,
  rules: usualRules,
};
const firingClass = (kind: FiringClass["kind"], cone: string): FiringClass => ({
  id: `${kind}-${cone}`,
  name: `${kind} ${cone}`,
  kind,
  cone,
  tolerance: { colder: -0.5, hotter: 0.5 },
  mayTouch: kind === "bisque",
});
const classes = [
  firingClass("glaze", "06"),
  firingClass("glaze", "05"),
  firingClass("bisque", "04"),
  firingClass("mid-range", "5"),
  firingClass("mid-range", "6"),
  firingClass("lustre", "018"),
];
const made = (each: FiringClass, ware?: WareToFire): ReturnType<typeof unwrap> =>
  unwrap(startingSchedules(each, kiln, ware));
const unwrap = (result: ReturnType<typeof startingSchedules>) => {
  if (!result.ok) throw new Error(result.failure.kind);
  return result.value;
};

describe("starting schedules", () => {
  it.each(classes)("for $name end on the cone, stay within the kiln, and give a reason for every segment", (each) => {
    for (const { schedule, steps } of made(each)) {
      expect(idealPosition(schedule, 293.15, 150 / 3600)).toBeCloseTo(conePositionOf(each.cone), 1);
      expect(scheduleFaults(schedule, kiln, each)).toEqual([]);
      expect(steps).toHaveLength(schedule.segments.length);
      for (const { reason } of steps) expect(reason.key).toMatch(/^schedule\./);
      const targets = schedule.segments.map(({ target }) => target);
      expect(targets).toEqual(targets.toSorted((a, b) => a - b));
    }
  });

  it("dries raw ware below boiling and goes slowly through the quartz change, and says so", () => {
    const [usual] = made(firingClass("bisque", "04"));
    expect(celsiusFromKelvin(usual.schedule.segments[0].target)).toBeLessThan(100);
    expect(usual.schedule.segments[0].hold).toBeGreaterThanOrEqual(3600);
    const through573 = usual.schedule.segments.find(({ target }) => celsiusFromKelvin(target) > 573)!;
    expect(kelvinPerHour(through573.rate as number)).toBeLessThanOrEqual(110);
    expect(usual.notes.map(({ key }) => key)).toEqual(
      expect.arrayContaining(["schedule.note.bone-dry", "schedule.note.steam", "schedule.note.quartz-cooling"]),
    );
  });

  it("takes thick ware more slowly and dries it longer", () => {
    const thin = made(firingClass("bisque", "04"), { raw: true, thickest: 0.006 })[0].schedule.segments;
    const thick = made(firingClass("bisque", "04"), { raw: true, thickest: 0.02 })[0].schedule.segments;
    expect(thick[0].hold).toBeGreaterThan(thin[0].hold);
    expect(thick[2].rate).toBeLessThan(thin[2].rate as number);
  });

  it("warns of raw ware in a glaze firing", () => {
    const notes = made(firingClass("glaze", "06"), { raw: true, thickest: 0.006 })[0].notes;
    expect(notes.map(({ key }) => key)).toContain("schedule.note.once-fired");
  });

  it("cuts rates to what a weak kiln can do, and refuses a cone above its limit", () => {
    const weak: Kiln = { ...kiln, supplyVoltage: 190 };
    const result = unwrap(startingSchedules(firingClass("mid-range", "6"), weak));
    expect(result[0].steps.some(({ slowedByKiln }) => slowedByKiln)).toBe(true);
    const cool = startingSchedules(firingClass("mid-range", "6"), { ...kiln, maxTemperature: 1423.15 });
    expect(cool).toMatchObject({ ok: false, failure: { kind: "too hot for the kiln", limit: 1423.15 } });
  });
});

describe("limits of the kiln", () => {
  // design.md section 5: about 4.6 kW of steady loss at 1000 C, so 11.5 kW leave 6.9 for climbing.
  it("still climbs at a plausible rate at 1000 C: 150 to 330 C/h full, not at all on a third of the power", () => {
    const rate = kelvinPerHour(attainableRate(kiln, 1273.15, 293.15));
    expect(rate).toBeGreaterThan(150);
    expect(rate).toBeLessThan(330);
    expect(attainableRate({ ...kiln, supplyVoltage: 130 }, 1273.15, 293.15)).toBeLessThan(0);
  });

  it("stops a target above the kiln's and a schedule for 6 where the class is 06", () => {
    const six = made(firingClass("mid-range", "6"))[0].schedule;
    expect(scheduleFaults(six, kiln, firingClass("glaze", "06"))).toMatchObject([
      { kind: "wrong cone", level: "stop", cone: "06" },
    ]);
    const hot = { ...six, segments: [{ rate: 0.03, target: 1600, hold: 0 }] };
    expect(scheduleFaults(hot, kiln, null)[0]).toMatchObject({ kind: "too hot", segment: 0, limit: 1563.15 });
  });

  it("checks rates, idle segments and schedules that do not heat", () => {
    const segments = [
      { rate: 2, target: 1273.15, hold: 0 },
      { rate: 1, target: 1273.15, hold: 0 },
    ];
    expect(scheduleFaults({ id: "x", name: "x", segments }, kiln, null).map(({ kind }) => kind)).toEqual([
      "too fast",
      "does nothing",
    ]);
    expect(scheduleFaults({ id: "x", name: "x", segments: [] }, kiln, null)).toEqual([
      { kind: "no heating", level: "stop" },
    ]);
  });

  it("names segment, rate and temperature where a computed firing falls behind", () => {
    const schedule = {
      id: "x",
      name: "x",
      segments: [
        { rate: 100 / 3600, target: 773.15, hold: 0 },
        { rate: 150 / 3600, target: 1273.15, hold: 0 },
      ],
    };
    const times = Array.from({ length: 12 }, (_, i) => i * 3600);
    const scheduled = times.map((t) =>
      t <= 17_280 ? 293.15 + t / 36 : Math.min(1273.15, 773.15 + ((t - 17_280) * 150) / 3600),
    );
    const sensors = [scheduled.map((temperature, i) => temperature - (i > 6 ? 20 * (i - 6) : 0))];
    expect(fallsBehind({ times, scheduled, sensors, fallsBehindAt: 7 * 3600 }, schedule)).toEqual({
      at: 25_200,
      segment: 1,
      rate: 150 / 3600,
      temperature: sensors[0][7],
    });
    expect(fallsBehind({ times, scheduled, sensors, fallsBehindAt: null }, schedule)).toBeNull();
  });
});
