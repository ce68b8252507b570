import { assert, integer, property } from "fast-check";
import { describe, expect, test } from "vitest";
import { dayNumberOf, isoDateOf, weekdayOf } from "./day.ts";

describe("days", () => {
  // The host's own calendar (ECMAScript Date, proleptic Gregorian) is the outside reference.
  test("agree with the host's calendar over six centuries, both ways", () => {
    assert(
      property(integer({ min: dayNumberOf("1700-01-01"), max: dayNumberOf("2300-12-31") }), (day) => {
        const date = new Date(day * 86_400_000);
        expect(isoDateOf(day)).toBe(date.toISOString().slice(0, 10));
        expect(dayNumberOf(isoDateOf(day))).toBe(day);
        expect(weekdayOf(day)).toBe(date.getUTCDay());
      }),
      { seed: 7, numRuns: 3000 },
    );
  });

  test("a leap day and the turn of a century", () => {
    expect(isoDateOf(dayNumberOf("2000-02-29") + 1)).toBe("2000-03-01");
    expect(isoDateOf(dayNumberOf("2100-02-28") + 1)).toBe("2100-03-01");
    expect(dayNumberOf("1970-01-01")).toBe(0);
  });

  test("half a day is no day", () => expect(() => isoDateOf(0.5)).toThrow(/day is 0.5; expected a whole day number/));
});
