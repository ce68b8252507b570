import { describe, expect, test } from "vitest";
import { couldGoEitherWay, heatClasses, heatClassOf, outsideRange } from "./heat-class.ts";

describe("steps of heat", () => {
  // Edges as the design sets them: a quarter, a half and one cone about the wanted middle.
  test.each([
    [-1.0001, "cold3"],
    [-1, "cold2"],
    [-0.5001, "cold2"],
    [-0.5, "cold1"],
    [-0.2501, "cold1"],
    [-0.25, "wanted"],
    [0, "wanted"],
    [0.25, "wanted"],
    [0.2501, "hot1"],
    [0.5, "hot1"],
    [0.5001, "hot2"],
    [1, "hot2"],
    [1.0001, "hot3"],
    [9, "hot3"],
  ] as const)("%f cones is %s", (offset, expected) => expect(heatClassOf(offset)).toBe(expected));

  test("never turn back as a piece gets hotter, and are mirror images", () => {
    let last = 0;
    for (let offset = -1.5; offset <= 1.5; offset += 0.01) {
      const step = heatClasses.indexOf(heatClassOf(offset));
      expect(step).toBeGreaterThanOrEqual(last);
      expect(heatClasses.indexOf(heatClassOf(-offset))).toBe(6 - step);
      last = step;
    }
    expect(last).toBe(6);
  });

  test("a number that is none is refused", () => {
    expect(() => heatClassOf(Number.NaN)).toThrow(/finite number of cones, got NaN/);
  });
});

test("a triangle stands for outside the class's own range", () => {
  const usual = { colder: -0.5, hotter: 0.5 };
  for (let offset = -1.5; offset <= 1.5; offset += 0.01) {
    const heat = heatClassOf(offset);
    expect(outsideRange(offset, usual) !== null).toBe(/[23]$/.test(heat));
  }
  expect(outsideRange(-0.6, { colder: -1, hotter: 0 })).toBeNull();
  expect(outsideRange(0.1, { colder: -1, hotter: 0 })).toBe("hot");
});

test("3 to 7 chances in 10 could go either way", () => {
  expect([0.29, 0.3, 0.5, 0.7, 0.71].map(couldGoEitherWay)).toEqual([false, true, true, true, false]);
});
