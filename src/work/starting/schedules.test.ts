import { conePositionOf, heatworkPosition } from "#engine/heatwork";
import { describe, expect, test } from "vitest";
import { startingClasses } from "./classes.ts";
import { startingSchedules } from "./schedules.ts";

const schedules = startingSchedules();

describe("starting schedules reach their cone", () => {
  // The cones' chart [orton-chart], through kinetics fitted to it and run over the schedule as an ideal kiln would.
  test.each([
    ["glaze-06-usual", "06"],
    ["glaze-06-slow", "06"],
    ["bisque-04-usual", "04"],
    ["bisque-04-slow", "04"],
    ["mid-6-usual", "6"],
    ["mid-6-slow", "6"],
  ])("%s", (id, cone) => {
    const schedule = schedules.find((each) => each.id === id)!;
    const times = [0];
    const temperatures = [293.15];
    for (const { rate, target, hold } of schedule.segments) {
      expect(rate).not.toBe("full");
      times.push(times.at(-1) + (target - temperatures.at(-1)) / (rate as number));
      temperatures.push(target);
      times.push(times.at(-1) + hold);
      temperatures.push(target);
    }
    times.push(times.at(-1) + 3600);
    temperatures.push(temperatures.at(-1) - 200);
    expect(Math.abs(heatworkPosition(times, temperatures) - conePositionOf(cone))).toBeLessThan(0.15);
  });

  test("every class has its usual schedule", () => {
    for (const each of startingClasses) {
      expect(schedules.map(({ id }) => id)).toContain(each.usualScheduleId);
    }
  });
});
