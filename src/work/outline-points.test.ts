import { expect, test } from "vitest";
import { areaOf, type Outline } from "#engine/geometry";
import { clippedBehind, grownOutline, outlinePoints, reachAlong, type PlanPoint } from "./outline-points.ts";

/** Shoelace formula, https://en.wikipedia.org/wiki/Shoelace_formula */
function shoelace(points: readonly PlanPoint[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length];
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

const outlines: readonly Outline[] = [
  { kind: "disc", radius: 0.29 },
  { kind: "half-disc", radius: 0.265 },
  { kind: "rectangle", width: 0.6, depth: 0.5 },
  { kind: "polygon", sides: 10, inradius: 0.29, rotation: 0.3 },
];

test.each(outlines)("points of a $kind go round it counter-clockwise and hold its area", (outline) => {
  const area = shoelace(outlinePoints(outline, { x: 0.1, y: -0.2, angle: 0.7 }));
  // 5° chords take sin(5°)/5° of a circle: 0.13 % less.
  expect(area).toBeGreaterThan(areaOf(outline) * 0.9987);
  expect(area).toBeLessThan(areaOf(outline) * 1.000001);
});

test("a kiln is its chamber and its wall: a decagon of 580 mm across flats with 68 mm of brick is 716 mm across", () => {
  const kiln = grownOutline({ kind: "polygon", sides: 10, inradius: 0.29, rotation: 0 }, 0.068);
  const { from, to } = reachAlong(outlinePoints(kiln), 1, 0);
  expect(to - from).toBeCloseTo(0.716, 12);
  expect(() => grownOutline({ kind: "half-disc", radius: 0.2 }, 0.01)).toThrow(/never a chamber/);
});

test("half a square is left behind a plane through its middle, nothing behind one in front of it", () => {
  const square = outlinePoints({ kind: "rectangle", width: 0.4, depth: 0.4 });
  const half = clippedBehind(square, 0, -1, 0);
  expect(shoelace(half)).toBeCloseTo(0.08, 12);
  expect(Math.min(...half.map(([, y]) => y))).toBeCloseTo(0, 12);
  expect(clippedBehind(square, 0, -1, -0.3)).toHaveLength(0);
  expect(shoelace(clippedBehind(square, Math.SQRT1_2, Math.SQRT1_2, 1))).toBeCloseTo(0.16, 12);
});
