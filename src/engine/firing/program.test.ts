import { describe, expect, it } from "vitest";
import type { Kiln, Schedule } from "#engine/kiln";
import { Program } from "./program.ts";
import { scheduleFault } from "./schedule-fault.ts";

const schedule: Schedule = {
  id: "s",
  name: "s",
  segments: [
    { rate: 0.05, target: 393, hold: 600 },
    { rate: "full", target: 900, hold: 0 },
    { rate: 0.1, target: 700, hold: 100 },
  ],
};

describe("Program", () => {
  it("climbs, holds once the kiln is there, and comes down", () => {
    const program = new Program(schedule, 293);
    expect(program.setPoint(1000)).toBeCloseTo(343, 9);
    expect(program.slope).toBe(0.05);
    expect(program.ends).toBeCloseTo(2000, 9);
    expect(program.advance({ time: 1900, reading: 387 }, { time: 2000, reading: 392.5 })).toBe(true);
    expect(program.phase).toBe("hold");
    expect(program.ends).toBeCloseTo(2600, 9);
    expect(program.advance({ time: 2500, reading: 393 }, { time: 2600, reading: 393 })).toBe(true);
    expect(program.phase).toBe("wait");
    expect(program.setPoint(2600)).toBe(900);
    expect(program.hasRate).toBe(false);
    expect(program.advance({ time: 5000, reading: 890 }, { time: 5100, reading: 900 })).toBe(true);
    expect(program.advance({ time: 5000, reading: 890 }, { time: 5100, reading: 900 })).toBe(true);
    expect(program.phase).toBe("slope");
    expect(program.slope).toBe(-0.1);
    expect(program.furthest([705, 710])).toBe(710);
  });

  it("waits for a kiln that lags, and counts the hold from where it arrived", () => {
    const program = new Program(schedule, 293);
    program.advance({ time: 1900, reading: 370 }, { time: 2000, reading: 373 });
    expect(program.phase).toBe("wait");
    expect(program.arrival({ time: 2000, reading: 373 }, { time: 2100, reading: 381 })).toBeCloseTo(2225, 6);
    // Within 2 K of the target two thirds of the way through the step.
    program.advance({ time: 2200, reading: 387 }, { time: 2300, reading: 393 });
    expect(program.phase).toBe("hold");
    expect(program.ends).toBeCloseTo(2200 + 100 * (4 / 6) + 600, 6);
  });

  it("is done after the last segment", () => {
    const program = new Program({ ...schedule, segments: [{ rate: 1, target: 300, hold: 0 }] }, 293);
    const [before, after] = [
      { time: 0, reading: 293 },
      { time: 7, reading: 300 },
    ];
    while (program.advance(before, after));
    expect(program.phase).toBe("done");
  });
});

describe("scheduleFault", () => {
  const kiln = { name: "Study", maxTemperature: 1500 } as Kiln;
  const segment = { rate: 0.05, target: 1200, hold: 0 } as const;
  const faultOf = (segments: Schedule["segments"]) => scheduleFault({ id: "s", name: "s", segments }, kiln, 293.15);
  it("passes a sound schedule", () => expect(faultOf([segment])).toBeNull());
  it.each([
    ["no segments", [], "no segments"],
    ["a target above the kiln's limit", [{ ...segment, target: 1600 }], "Study may go to 1227 C"],
    ["a target below the room", [segment, { ...segment, target: 280 }], "Segment 2"],
    ["a rate of 0", [{ ...segment, rate: 0 }], 'above 0 or "full"'],
    ["a hold that is no number", [{ ...segment, hold: Number.NaN }], "holds for NaN s"],
  ])("refuses %s and names the segment", (_, segments, words) => {
    expect(faultOf(segments)?.message).toContain(words);
  });
});
