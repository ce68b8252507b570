import * as fc from "fast-check";
import { expect, test } from "vitest";
import { fromWindow, planFrame, toKiln, toScreen } from "./frame.ts";

const decagon = { kind: "polygon", sides: 10, inradius: 0.358, rotation: 0 } as const;
const frame = planFrame(decagon, 364, 600, { side: 8, top: 8, bottom: 8 });

test("the plan fills its width and keeps its proportions", () => {
  expect(frame.scale).toBeCloseTo((364 - 16) / 0.716, 9);
  expect(toScreen(frame, 0.358, 0).x).toBeCloseTo(356, 9);
  expect(toScreen(frame, -0.358, 0).x).toBeCloseTo(8, 9);
  // A decagon with a flat facing right stands on corners: circumradius = inradius / cos 18°.
  expect(frame.height).toBeCloseTo((0.716 / Math.cos(Math.PI / 10)) * frame.scale + 16, 9);
});

test("a low limit of height makes the drawing smaller, still in the middle", () => {
  const low = planFrame(decagon, 364, 200, { side: 8, top: 8, bottom: 8 });
  expect(low.height).toBeCloseTo(200, 9);
  expect(toScreen(low, 0, 0).x).toBeCloseTo(182, 9);
});

test("left in the kiln is left on the screen, the back is up", () => {
  expect(toScreen(frame, -0.1, 0).x).toBeLessThan(toScreen(frame, 0.1, 0).x);
  expect(toScreen(frame, 0, 0.1).y).toBeLessThan(toScreen(frame, 0, -0.1).y);
});

const coordinate = fc.double({ min: -2000, max: 2000, noNaN: true });

test("from kiln to screen and back changes nothing", () => {
  fc.assert(
    fc.property(coordinate, coordinate, (x, y) => {
      const back = toKiln(frame, toScreen(frame, x / 1000, y / 1000));
      expect(back.x).toBeCloseTo(x / 1000, 9);
      expect(back.y).toBeCloseTo(y / 1000, 9);
    }),
  );
});

test("a place in the window is found under any zoom, turn, skew and scroll", () => {
  const zoom = fc.double({ min: 0.25, max: 5, noNaN: true });
  fc.assert(
    fc.property(
      zoom,
      zoom,
      fc.double({ min: -3, max: 3, noNaN: true }),
      coordinate,
      coordinate,
      coordinate,
      coordinate,
      (zoomX, zoomY, turn, e, f, x, y) => {
        const matrix = {
          a: zoomX * Math.cos(turn),
          b: zoomX * Math.sin(turn),
          c: -zoomY * Math.sin(turn),
          d: zoomY * Math.cos(turn),
          e,
          f,
        };
        const point = fromWindow(matrix, matrix.a * x + matrix.c * y + e, matrix.b * x + matrix.d * y + f);
        expect(point.x).toBeCloseTo(x, 6);
        expect(point.y).toBeCloseTo(y, 6);
      },
    ),
  );
});
