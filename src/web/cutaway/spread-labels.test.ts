import * as fc from "fast-check";
import { expect, test } from "vitest";
import { spreadLabels } from "./spread-labels.ts";

test("labels with room stay where they are", () => {
  expect(spreadLabels([300, 100, 200], 50, 0, 400)).toEqual([300, 100, 200]);
});

test("two that overlap part evenly", () => {
  expect(spreadLabels([100, 110], 50, 0, 400)).toEqual([80, 130]);
});

test("labels at the ends stay inside", () => {
  expect(spreadLabels([395, 390], 50, 0, 400)).toEqual([375, 325]);
});

test("never overlap, never leave, keep their order, whatever is asked", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 500, noNaN: true }), { maxLength: 9 }), (wanted) => {
      const middles = spreadLabels(wanted, 50, 0, 500);
      const sorted = middles.map((middle, i) => ({ middle, wanted: wanted[i] })).sort((a, b) => a.middle - b.middle);
      for (const [i, { middle, wanted: asked }] of sorted.entries()) {
        expect(middle).toBeGreaterThanOrEqual(25 - 1e-6);
        expect(middle).toBeLessThanOrEqual(475 + 1e-6);
        if (i > 0) {
          expect(middle - sorted[i - 1].middle).toBeGreaterThanOrEqual(50 - 1e-6);
          expect(asked).toBeGreaterThanOrEqual(sorted[i - 1].wanted);
        }
      }
    }),
  );
});
