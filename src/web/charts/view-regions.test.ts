import * as fc from "fast-check";
import { expect, test } from "vitest";
import { outlinesOf, smoothed, type LatticePoint } from "./view-regions.ts";

/** Shoelace formula; positive for clockwise loops, as y points down. https://en.wikipedia.org/wiki/Shoelace_formula */
function area(loop: readonly LatticePoint[]): number {
  return loop.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = loop[(i + 1) % loop.length];
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

test("a ring has an outer loop and a hole", () => {
  const labels = [1, 1, 1, 1, 2, 1, 1, 1, 1];
  const ring = outlinesOf(labels, 3).get(1)!;
  expect(ring.map(area).sort((a, b) => a - b)).toEqual([-1, 9]);
  expect(outlinesOf(labels, 3).get(2)!.map(area)).toEqual([1]);
});

test("areas that touch by a corner stay apart", () => {
  expect(outlinesOf([1, 2, 2, 1], 2).get(1)!.map(area)).toEqual([1, 1]);
});

test("the loops of a label hold as much as it has pixels, whatever the picture", () => {
  fc.assert(
    fc.property(
      fc
        .integer({ min: 1, max: 12 })
        .chain((size) =>
          fc.tuple(
            fc.constant(size),
            fc.array(fc.integer({ min: 0, max: 3 }), { minLength: size * size, maxLength: size * size }),
          ),
        ),
      ([size, labels]) => {
        const outlines = outlinesOf(labels, size);
        for (const label of new Set(labels)) {
          const total = outlines.get(label)!.reduce((sum, loop) => sum + area(loop), 0);
          expect(total).toBe(labels.filter((each) => each === label).length);
        }
      },
    ),
  );
});

test("smoothing a disc of pixels moves its area by less than 3 %", () => {
  const size = 40;
  const labels = Array.from({ length: size * size }, (_, i) =>
    Math.hypot((i % size) - 19.5, Math.floor(i / size) - 19.5) < 15 ? 1 : 0,
  );
  const [disc] = outlinesOf(labels, size).get(1)!;
  expect(area(smoothed(disc)) / area(disc)).toBeGreaterThan(0.97);
  expect(area(smoothed(disc)) / area(disc)).toBeLessThan(1.01);
  expect(area(disc)).toBeCloseTo(Math.PI * 15 ** 2, -1.3);
});
