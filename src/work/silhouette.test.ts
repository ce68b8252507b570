import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bodyRadius, heightOf, type Shape } from "#engine/kiln";
import { radiusOfProfile, silhouetteOf, smoothProfile, type SidePoint } from "./silhouette.ts";

const mug: Shape = {
  id: "mug",
  name: "mug",
  body: {
    kind: "revolution",
    profile: [
      [0.03, 0],
      [0.0425, 0.012],
      [0.0425, 0.095],
    ],
    wall: 0.005,
    foot: 0.03,
    closed: false,
  },
  handle: { reach: 0.035, width: 0.018, bottom: 0.02, top: 0.08 },
  spout: null,
  lidHeight: 0,
  mass: 0.35,
  guessed: false,
};

const vaseProfile: SidePoint[] = [
  [0.03, 0],
  [0.045, 0.05],
  [0.05, 0.1],
  [0.03, 0.15],
  [0.025, 0.19],
  [0.027, 0.2],
];

describe("side view", () => {
  test("shows the size the shape has: 85 mm across, 95 mm high, handle 35 mm beyond", () => {
    const view = silhouetteOf(mug);
    expect(view.left).toBeCloseTo(-0.0425, 12);
    expect(view.right).toBeCloseTo(0.0425 + 0.035, 3);
    expect(view.right).toBeLessThanOrEqual(0.0425 + 0.035 + 1e-9);
    expect(view.height).toBeCloseTo(0.095, 12);
    const ups = view.handle!.centre.map(([, up]) => up);
    expect(Math.max(...ups) + view.handle!.width / 2).toBeCloseTo(0.08, 12);
    expect(Math.min(...ups) - view.handle!.width / 2).toBeCloseTo(0.02, 12);
  });

  test("a handle turned away hides behind the body, one turned to the viewer stands before it, as wide as its strap", () => {
    const away = silhouetteOf(mug, Math.PI / 2);
    const near = silhouetteOf(mug, -Math.PI / 2);
    expect(away.handle!.inFront).toBe(false);
    expect(near.handle!.inFront).toBe(true);
    expect(near.handle!.width).toBeCloseTo(0.018, 12);
    expect(near.right).toBeCloseTo(0.0425, 12);
    const left = silhouetteOf(mug, Math.PI);
    expect(left.left).toBeCloseTo(-silhouetteOf(mug).right, 12);
  });

  test("any shape of revolution keeps its height and width from every side", () => {
    const profile = fc.array(
      fc.tuple(fc.double({ min: 0.01, max: 0.2, noNaN: true }), fc.double({ min: 0.001, max: 0.1, noNaN: true })),
      {
        minLength: 2,
        maxLength: 8,
      },
    );
    fc.assert(
      fc.property(profile, fc.double({ min: -7, max: 7, noNaN: true }), fc.boolean(), (steps, turn, closed) => {
        let height = 0;
        const points = steps.map(([r, rise], i): SidePoint => [r, (height += i === 0 ? 0 : rise)]);
        if (closed) points.push([0, (height += 0.01)]);
        const shape: Shape = {
          ...mug,
          handle: null,
          body: { ...mug.body, kind: "revolution", profile: points, wall: 0.005, foot: 0.01, closed },
        };
        const view = silhouetteOf(shape, turn);
        expect(view.right).toBeCloseTo(bodyRadius(shape), 12);
        expect(view.left).toBeCloseTo(-bodyRadius(shape), 12);
        expect(view.height).toBeCloseTo(heightOf(shape), 12);
      }),
    );
  });

  test("a box shows its diagonal when turned by it, and the near edge in the middle", () => {
    const box: Shape = {
      ...mug,
      handle: null,
      body: { kind: "box", width: 0.12, depth: 0.12, height: 0.1, wall: 0, closed: true },
    };
    const view = silhouetteOf(box, Math.PI / 4);
    expect(view.right).toBeCloseTo(0.06 * Math.SQRT2, 12);
    expect(view.lines).toHaveLength(1);
    expect(view.lines[0][0][0]).toBeCloseTo(0, 12);
    expect(silhouetteOf(box).lines).toHaveLength(0);
  });

  test("a lid adds its height, a spout its reach on the other side", () => {
    const teapot: Shape = { ...mug, lidHeight: 0.03, spout: { reach: 0.05, width: 0.03, bottom: 0.03, top: 0.09 } };
    const view = silhouetteOf(teapot);
    expect(view.height).toBeCloseTo(0.125, 12);
    expect(view.left).toBeCloseTo(-(0.0425 + 0.05), 12);
    expect(silhouetteOf(teapot, Math.PI).right).toBeCloseTo(0.0425 + 0.05, 12);
  });
});

describe("a smoothed profile", () => {
  test("keeps every given point and stays near the straight lines between them", () => {
    const smooth = smoothProfile(vaseProfile, false);
    for (const point of vaseProfile) expect(smooth).toContainEqual(point);
    for (const [r, z] of smooth) expect(Math.abs(r - radiusOfProfile(vaseProfile, z))).toBeLessThan(0.004);
  });

  test("leaves the corner of a mug's foot sharp and its wall straight", () => {
    const wall = smoothProfile(mug.body.kind === "revolution" ? mug.body.profile : [], false).filter(
      ([, z]) => z > 0.013,
    );
    for (const [r] of wall) expect(r).toBeCloseTo(0.0425, 12);
  });
});
