import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeFootprint, roomInside, type Outline, type RoundedBox } from "#engine/geometry";
import type { Shape } from "#engine/kiln";
import { alder, alderLoad, mugShape, shelf } from "./alder-fixture.ts";
import { footRoom, roomToChamber } from "./clearances.ts";
import { boxToPlate, intoFrame, partToPlate, platesApart, pointToPlate, type Plate } from "./plate.ts";
import { sceneOf, shifted } from "./scene.ts";
import { roomToWall } from "./shelf-rules.ts";
import { partBlocks, plateBlocks, type Point } from "./sight.ts";
import { distanceBetweenParts, distanceToPart, radiusAtHeight, type Part } from "./solid.ts";

/*
 * Distances against brute force: both bodies as clouds of points on their surfaces. The nearest pair of the clouds is
 * never nearer than the true distance and never further than that plus twice the clouds' spacing.
 */

const spacing = 0.002;
const steps = (length: number): number => Math.max(2, Math.ceil(length / spacing));

function edgeOfBox(box: RoundedBox): readonly (readonly [number, number])[] {
  // The outline of a rounded box: its core's outline pushed out by the radius.
  const points: (readonly [number, number])[] = [];
  const cos = Math.cos(box.angle);
  const sin = Math.sin(box.angle);
  const add = (x: number, y: number): void => {
    points.push([box.x + cos * x - sin * y, box.y + sin * x + cos * y]);
  };
  for (const [sx, sy, from] of [
    [1, 1, 0],
    [-1, 1, Math.PI / 2],
    [-1, -1, Math.PI],
    [1, -1, 1.5 * Math.PI],
  ] as const) {
    const n = steps((box.radius * Math.PI) / 2);
    for (let i = 0; i <= n; i++) {
      const turn = from + (i / n) * (Math.PI / 2);
      add(sx * box.halfX + box.radius * Math.cos(turn), sy * box.halfY + box.radius * Math.sin(turn));
    }
  }
  for (const s of [1, -1]) {
    const along = steps(2 * box.halfX);
    for (let i = 0; i <= along; i++) add(-box.halfX + (2 * box.halfX * i) / along, s * (box.halfY + box.radius));
    const across = steps(2 * box.halfY);
    for (let i = 0; i <= across; i++) add(s * (box.halfX + box.radius), -box.halfY + (2 * box.halfY * i) / across);
  }
  return points;
}

function cloudOf(part: Part): readonly Point[] {
  const points: Point[] = [];
  if (part.kind === "upright") {
    for (const [x, y] of edgeOfBox(part.box)) {
      const n = steps(part.top - part.bottom);
      for (let i = 0; i <= n; i++) points.push([x, y, part.bottom + ((part.top - part.bottom) * i) / n]);
    }
    return points;
  }
  const ringAt = (radius: number, z: number): void => {
    const n = steps(2 * Math.PI * radius);
    for (let i = 0; i < n; i++) {
      const turn = (2 * Math.PI * i) / n;
      points.push([part.x + radius * Math.cos(turn), part.y + radius * Math.sin(turn), z]);
    }
  };
  for (let i = 1; i < part.profile.length; i++) {
    const [r0, z0] = part.profile[i - 1] as readonly [number, number];
    const [r1, z1] = part.profile[i] as readonly [number, number];
    const n = steps(Math.hypot(r1 - r0, z1 - z0));
    for (let j = 0; j <= n; j++) ringAt(r0 + ((r1 - r0) * j) / n, z0 + ((z1 - z0) * j) / n);
  }
  return points;
}

function nearest(a: readonly Point[], b: readonly Point[]): number {
  let least = Infinity;
  for (const p of a) {
    for (const q of b) {
      const d = (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2;
      if (d < least) least = d;
    }
  }
  return Math.sqrt(least);
}

/** Inside test written on its own: no distance function of the room is used. */
function inside(part: Part, [x, y, z]: Point): boolean {
  if (z < part.bottom || z > part.top) return false;
  if (part.kind === "turned") return Math.hypot(x - part.x, y - part.y) < radiusAtHeight(part, z);
  const { box } = part;
  const dx = x - box.x;
  const dy = y - box.y;
  const u = Math.abs(dx * Math.cos(box.angle) + dy * Math.sin(box.angle)) - box.halfX;
  const v = Math.abs(-dx * Math.sin(box.angle) + dy * Math.cos(box.angle)) - box.halfY;
  return Math.hypot(Math.max(u, 0), Math.max(v, 0)) < box.radius || (u < 0 && v < 0);
}

const place = fc.record({
  x: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
  y: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
  bottom: fc.double({ min: 0, max: 0.03, noNaN: true }),
});
const turnedPart: fc.Arbitrary<Part> = fc
  .tuple(
    place,
    fc.array(
      fc.tuple(fc.double({ min: 0.003, max: 0.015, noNaN: true }), fc.double({ min: 0, max: 0.012, noNaN: true })),
      { minLength: 2, maxLength: 4 },
    ),
  )
  .map(([{ x, y, bottom }, steps]) => {
    let z = bottom;
    const profile = steps.map(([radius, rise], i) => {
      z += i === 0 ? 0 : rise + 1e-4;
      return [radius, z] as const;
    });
    return { kind: "turned", x, y, profile, bottom, top: z, reach: Math.max(...profile.map(([r]) => r)) };
  });
const box: fc.Arbitrary<RoundedBox> = fc.record({
  x: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
  y: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
  angle: fc.double({ min: 0, max: 7, noNaN: true }),
  halfX: fc.double({ min: 0.001, max: 0.012, noNaN: true }),
  halfY: fc.double({ min: 0.001, max: 0.006, noNaN: true }),
  radius: fc.double({ min: 0.0005, max: 0.006, noNaN: true }),
});
const uprightPart: fc.Arbitrary<Part> = fc
  .tuple(box, fc.double({ min: 0, max: 0.03, noNaN: true }), fc.double({ min: 0.002, max: 0.03, noNaN: true }))
  .map(([box, bottom, height]) => ({ kind: "upright", box, bottom, top: bottom + height }));
const part = fc.oneof(turnedPart, uprightPart);
const runs = { numRuns: 150 };

describe("parts", () => {
  test("the distance between two is that of the nearest points of their surfaces", () => {
    fc.assert(
      fc.property(part, part, (a, b) => {
        const exact = distanceBetweenParts(a, b);
        const cloudA = cloudOf(a);
        const cloudB = cloudOf(b);
        if (cloudA.some((p) => inside(b, p)) || cloudB.some((p) => inside(a, p))) {
          expect(exact).toBeLessThan(1e-9);
          return;
        }
        const sampled = nearest(cloudA, cloudB);
        if (exact < 0) {
          // Overlaps thinner than the spacing, or caps through each other: the surfaces are close all the same.
          expect(sampled).toBeLessThan(0.02);
          return;
        }
        // Caps are not in the clouds: a body over another's cap may be nearer than its cloud.
        const capped = a.bottom >= b.top || b.bottom >= a.top;
        if (!capped) expect(sampled).toBeLessThanOrEqual(exact + 2 * spacing);
        expect(sampled).toBeGreaterThanOrEqual(exact - 1e-9);
      }),
      runs,
    );
  });

  test("it does not matter which is named first", () => {
    fc.assert(
      fc.property(part, part, (a, b) => {
        expect(distanceBetweenParts(a, b)).toBeCloseTo(distanceBetweenParts(b, a), 9);
      }),
      runs,
    );
  });

  test("a body right above another is as far as the gap between them", () => {
    const below: Part = {
      kind: "turned",
      x: 0,
      y: 0,
      profile: [
        [0.04, 0],
        [0.04, 0.1],
      ],
      bottom: 0,
      top: 0.1,
      reach: 0.04,
    };
    const above: Part = {
      ...below,
      x: 0.01,
      profile: [
        [0.02, 0.113],
        [0.03, 0.2],
      ],
      bottom: 0.113,
      top: 0.2,
    };
    expect(distanceBetweenParts(below, above)).toBeCloseTo(0.013, 12);
    const tube: Part = {
      kind: "upright",
      box: { x: 0, y: 0, angle: 1, halfX: 0.01, halfY: 0.01, radius: 0 },
      bottom: 0.105,
      top: 0.2,
    };
    expect(distanceBetweenParts(below, tube)).toBeCloseTo(0.005, 12);
  });

  test("a point is as far as the nearest point of the surface, and inside when it is", () => {
    fc.assert(
      fc.property(
        part,
        fc.tuple(
          fc.double({ min: -0.06, max: 0.06, noNaN: true }),
          fc.double({ min: -0.06, max: 0.06, noNaN: true }),
          fc.double({ min: -0.02, max: 0.09, noNaN: true }),
        ),
        (body, point) => {
          const exact = distanceToPart(body, ...point);
          if (inside(body, point)) {
            expect(exact).toBeLessThanOrEqual(0);
            return;
          }
          expect(exact).toBeGreaterThanOrEqual(-1e-9);
          const sampled = nearest([point], cloudOf(body));
          expect(sampled).toBeGreaterThanOrEqual(exact - 1e-9);
          if (point[2] >= body.bottom && point[2] <= body.top) expect(sampled).toBeLessThanOrEqual(exact + 2 * spacing);
        },
      ),
      { numRuns: 400 },
    );
  });
});

const outline: fc.Arbitrary<Outline> = fc.oneof(
  fc.record({ kind: fc.constant("disc" as const), radius: fc.double({ min: 0.02, max: 0.06, noNaN: true }) }),
  fc.record({ kind: fc.constant("half-disc" as const), radius: fc.double({ min: 0.02, max: 0.06, noNaN: true }) }),
  fc.record({
    kind: fc.constant("rectangle" as const),
    width: fc.double({ min: 0.02, max: 0.1, noNaN: true }),
    depth: fc.double({ min: 0.02, max: 0.1, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant("polygon" as const),
    sides: fc.integer({ min: 3, max: 12 }),
    inradius: fc.double({ min: 0.02, max: 0.05, noNaN: true }),
    rotation: fc.double({ min: 0, max: 6, noNaN: true }),
  }),
);
const plate: fc.Arbitrary<Plate> = fc
  .record({
    outline,
    x: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
    y: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
    angle: fc.double({ min: 0, max: 7, noNaN: true }),
    bottom: fc.double({ min: 0, max: 0.04, noNaN: true }),
  })
  .map(({ outline, x, y, angle, bottom }) => ({ outline, at: { x, y, angle }, bottom, top: bottom + 0.016 }));

/** Membership of an outline, written on its own. */
function covers({ outline, at }: Plate, x: number, y: number): boolean {
  const dx = x - at.x;
  const dy = y - at.y;
  const u = dx * Math.cos(at.angle) + dy * Math.sin(at.angle);
  const v = -dx * Math.sin(at.angle) + dy * Math.cos(at.angle);
  switch (outline.kind) {
    case "disc":
      return Math.hypot(u, v) <= outline.radius;
    case "half-disc":
      return u <= 0 && Math.hypot(u, v) <= outline.radius;
    case "rectangle":
      return Math.abs(u) <= outline.width / 2 && Math.abs(v) <= outline.depth / 2;
    case "polygon":
      return Array.from(
        { length: outline.sides },
        (_, i) => outline.rotation + (2 * Math.PI * i) / outline.sides,
      ).every((turn) => u * Math.cos(turn) + v * Math.sin(turn) <= outline.inradius);
  }
}

const grid = 0.0025;
function gridOf(body: Plate): readonly (readonly [number, number])[] {
  const points: (readonly [number, number])[] = [];
  for (let x = -0.16; x <= 0.16; x += grid)
    for (let y = -0.16; y <= 0.16; y += grid) if (covers(body, x, y)) points.push([x, y]);
  return points;
}

describe("plates", () => {
  test("the distance to a rounded box is that of the nearest covered points", () => {
    fc.assert(
      fc.property(plate, box, (body, stand) => {
        const exact = boxToPlate(stand, body);
        const edge = edgeOfBox(stand);
        if (edge.some(([x, y]) => covers(body, x, y))) {
          expect(exact).toBeLessThan(1e-7);
          return;
        }
        if (exact < 0) return; // The box holds a corner of the plate: no point of its own edge is covered.
        const sampled = nearest(
          edge.map(([x, y]) => [x, y, 0]),
          gridOf(body).map(([x, y]) => [x, y, 0]),
        );
        expect(sampled).toBeGreaterThanOrEqual(exact - 2e-7);
        // Sharp corners may hold no point of the grid for a few steps.
        expect(sampled).toBeLessThanOrEqual(exact + spacing + 8 * grid);
      }),
      { numRuns: 60 },
    );
  });

  test("two overlap exactly when some point lies in both", () => {
    fc.assert(
      fc.property(plate, plate, (a, b) => {
        const apart = platesApart(a, b);
        const shared = gridOf(a).some(([x, y]) => covers(b, x, y));
        if (shared) expect(apart).toBeLessThan(0);
        if (apart < -4 * grid) expect(shared).toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  test("a point is as far as the nearest covered point, in space", () => {
    fc.assert(
      fc.property(
        plate,
        fc.double({ min: -0.12, max: 0.12, noNaN: true }),
        fc.double({ min: -0.12, max: 0.12, noNaN: true }),
        fc.double({ min: -0.05, max: 0.1, noNaN: true }),
        (body, x, y, z) => {
          const exact = pointToPlate(body, x, y, z);
          const up = Math.max(body.bottom - z, 0, z - body.top);
          const sampled = Math.min(...gridOf(body).map(([px, py]) => Math.hypot(px - x, py - y, up)));
          if (covers(body, x, y) && up === 0) expect(exact).toBeLessThanOrEqual(0);
          else {
            expect(sampled).toBeGreaterThanOrEqual(exact - 1e-9);
            expect(sampled).toBeLessThanOrEqual(exact + 8 * grid);
          }
        },
      ),
      { numRuns: 100 },
    );
  });

  test("the room to a chamber's wall is the least of its covered points", () => {
    const chambers: readonly Outline[] = [
      { kind: "disc", radius: 0.15 },
      { kind: "polygon", sides: 10, inradius: 0.15, rotation: 0.1 },
      { kind: "rectangle", width: 0.3, depth: 0.28 },
    ];
    fc.assert(
      fc.property(plate, fc.constantFrom(...chambers), (body, chamber) => {
        const room = roomToWall(chamber, body);
        // The wall as many half-planes; a disc as 720 of them, wrong by 1.4 micrometres.
        const walls =
          chamber.kind === "rectangle"
            ? [0, 1, 2, 3].map((i) => ({
                turn: (i * Math.PI) / 2,
                away: i % 2 === 0 ? chamber.width / 2 : chamber.depth / 2,
              }))
            : chamber.kind === "polygon"
              ? Array.from({ length: 10 }, (_, i) => ({ turn: 0.1 + (i * Math.PI) / 5, away: 0.15 }))
              : Array.from({ length: 720 }, (_, i) => ({ turn: (i * Math.PI) / 360, away: 0.15 }));
        let least = Infinity;
        for (const [x, y] of gridOf(body)) {
          for (const { turn, away } of walls) least = Math.min(least, away - x * Math.cos(turn) - y * Math.sin(turn));
        }
        expect(least).toBeGreaterThanOrEqual(room - 1e-5);
        expect(least).toBeLessThanOrEqual(room + 8 * grid);
      }),
      { numRuns: 40 },
    );
  });

  test("a turned body beside a plate is as far as its nearest ring", () => {
    fc.assert(
      fc.property(turnedPart, plate, (body, shelf) => {
        const exact = partToPlate(body, shelf);
        const cloud = cloudOf(body);
        const within = ([x, y, z]: Point): boolean => z >= shelf.bottom && z <= shelf.top && covers(shelf, x, y);
        if (cloud.some(within)) {
          expect(exact).toBeLessThan(1e-9);
          return;
        }
        const sampled = Math.min(...cloud.map((point) => pointToPlate(shelf, ...point)));
        if (exact >= 0) expect(sampled).toBeGreaterThanOrEqual(exact - 1e-7);
        if (exact > 0 && body.bottom < shelf.top && body.top > shelf.bottom)
          expect(sampled).toBeLessThanOrEqual(exact + 2 * spacing);
      }),
      runs,
    );
  });
});

describe("room in outlines", () => {
  test("foot and footprint are as far from edge and wall as geometry's own measure says", () => {
    const dish: Shape = {
      ...mugShape,
      body: { kind: "box", width: 0.14, depth: 0.09, height: 0.05, wall: 0.005, closed: false },
    };
    const near = fc.double({ min: -0.25, max: 0.25, noNaN: true });
    const chambers: readonly Outline[] = [
      { kind: "polygon", sides: 10, inradius: 0.29, rotation: 0.2 },
      { kind: "disc", radius: 0.29 },
      { kind: "rectangle", width: 0.58, depth: 0.5 },
    ];
    fc.assert(
      fc.property(
        near,
        near,
        fc.double({ min: 0, max: 7, noNaN: true }),
        fc.boolean(),
        fc.constantFrom(...chambers),
        (x, y, angle, round, plan) => {
          const shelves = [{ ...shelf("s1", 0.041, [], round ? "full" : "half"), angle: 0.4, x: 0.01 }];
          const load = alderLoad({
            shelves,
            stands: [{ id: "d", shape: dish, shelfId: "s1", x, y, angle }],
            kiln: { ...alder, chamber: { plan, height: 0.69 } },
          });
          const scene = sceneOf(load);
          const piece = scene.pieces[0];
          expect(roomToChamber(scene, piece)).toBeCloseTo(roomInside(plan, piece.footprint), 12);
          const inFrame = placeFootprint(piece.foot, intoFrame(piece.shelf.plate.at));
          expect(footRoom(piece)).toBeCloseTo(roomInside(piece.shelf.type.outline, inFrame), 12);
          const [dx, dy] = [0.03, -0.02];
          const moved = sceneOf(
            alderLoad({ shelves, stands: [{ id: "d", shape: dish, shelfId: "s1", x: x + dx, y: y + dy, angle }] }),
          );
          const there = moved.pieces[0];
          for (const [i, each] of shifted(piece, dx, dy).parts.entries()) {
            expect(distanceToPart(each, 0.1, 0.2, 0.3)).toBeCloseTo(distanceToPart(there.parts[i], 0.1, 0.2, 0.3), 12);
          }
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe("lines of sight", () => {
  const end = fc.tuple(
    fc.double({ min: -0.09, max: 0.09, noNaN: true }),
    fc.double({ min: -0.09, max: 0.09, noNaN: true }),
    fc.double({ min: -0.02, max: 0.09, noNaN: true }),
  );
  const along = (a: Point, b: Point, t: number): Point => [
    a[0] + t * (b[0] - a[0]),
    a[1] + t * (b[1] - a[1]),
    a[2] + t * (b[2] - a[2]),
  ];

  test("a part is in the way exactly when a point of the line is inside it", () => {
    fc.assert(
      fc.property(part, end, end, (body, a, b) => {
        const hits = Array.from({ length: 2001 }, (_, i) => along(a, b, i / 2000)).filter((point) =>
          inside(body, point),
        ).length;
        if (hits > 0) expect(partBlocks(body, a, b)).toBe(true);
        // A line that only grazes may hold no sampled point: ask again with the body a little smaller.
        else if (partBlocks(body, a, b)) {
          const nearestPoint = Math.min(
            ...Array.from({ length: 2001 }, (_, i) => distanceToPart(body, ...along(a, b, i / 2000))),
          );
          expect(nearestPoint).toBeLessThan(1e-3);
        }
      }),
      { numRuns: 500 },
    );
  });

  test("so is a shelf", () => {
    fc.assert(
      fc.property(plate, end, end, (body, a, b) => {
        // A line that only touches an edge may go either way: a hit lies a micrometre inside all round.
        const well = 1e-6;
        const hits = Array.from({ length: 2001 }, (_, i) => along(a, b, i / 2000)).filter(
          ([x, y, z]) =>
            z > body.bottom + well &&
            z < body.top - well &&
            [-well, well].every((d) => covers(body, x + d, y) && covers(body, x, y + d)),
        ).length;
        if (hits > 1) expect(plateBlocks(body, a, b)).toBe(true);
        if (plateBlocks(body, a, b)) {
          const nearestPoint = Math.min(
            ...Array.from({ length: 2001 }, (_, i) => pointToPlate(body, ...along(a, b, i / 2000))),
          );
          expect(nearestPoint).toBeLessThan(1e-3);
        }
      }),
      { numRuns: 300 },
    );
  });
});
