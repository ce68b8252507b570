import { describe, expect, it } from "vitest";
import { seededRandom, type Random } from "#base";
import { buildHierarchy } from "./hierarchy.ts";
import { exhaustiveTracer, hierarchyTracer, rayBatch, type RayBatch } from "./nearest-hit.ts";
import { solidKind, solidsBuilder, solidStride, type Solids } from "./solids.ts";

function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random.uniform();
}

/** Solids of all kinds at random, in a room about 1 m across. */
function randomSolids(random: Random, count: number): Solids {
  const builder = solidsBuilder();
  for (let i = 0; i < count; i++) {
    const x = between(random, -0.5, 0.5);
    const y = between(random, -0.5, 0.5);
    const z = between(random, 0, 0.9);
    const azimuth = between(random, 0, 2 * Math.PI);
    const radius = between(random, 0.01, 0.15);
    const nx = Math.cos(azimuth);
    const ny = Math.sin(azimuth);
    const chord =
      random.uniform() < 0.3 ? { nx, ny, distance: nx * x + ny * y + between(random, -0.5, 0.5) * radius } : undefined;
    switch (random.below(4)) {
      case 0: {
        const r1 = random.uniform() < 0.3 ? radius : between(random, 0, 0.15);
        builder.band({ x, y, r0: radius, z0: z, r1, z1: z + between(random, 0.005, 0.2), outward: true, chord });
        break;
      }
      case 1: {
        const round = random.uniform() < 0.5;
        const half = round ? 0 : between(random, 0.01, 0.1);
        const hole = round && random.uniform() < 0.5 ? radius * random.uniform() : 0;
        builder.plate({ x, y, z, angle: azimuth, halfX: half, halfY: half / 2, radius, hole, up: true, chord });
        break;
      }
      case 2:
        builder.panel({ x0: x, y0: y, x1: x + nx * 0.2, y1: y + ny * 0.2, z0: z, z1: z + radius, left: true });
        break;
      default:
        builder.box({ x, y, angle: azimuth, halfX: radius, halfY: radius / 3, z0: z, z1: z + radius });
    }
  }
  return builder.build();
}

function randomRays(random: Random, count: number): RayBatch {
  const rays = rayBatch(count);
  for (let i = 0; i < count; i++) {
    rays.ox[i] = between(random, -0.6, 0.6);
    rays.oy[i] = between(random, -0.6, 0.6);
    rays.oz[i] = between(random, 0, 1);
    let [u, v, w] = [random.normal(), random.normal(), random.normal()];
    // Some along the axes and in the level planes, where divisions by zero hide.
    if (i % 10 === 0) [u, v, w] = i % 20 === 0 ? [0, 0, i % 40 === 0 ? 1 : -1] : [u, v, 0];
    const length = Math.hypot(u, v, w);
    rays.dx[i] = u / length;
    rays.dy[i] = v / length;
    rays.dz[i] = w / length;
  }
  return rays;
}

describe("hierarchy against testing every solid", () => {
  for (const [seed, count] of [
    [1, 0],
    [2, 1],
    [3, 2],
    [4, 3],
    [5, 40],
    [6, 300],
    [7, 1000],
  ] as const) {
    it(`finds the same nearest solid, seed ${seed}, ${count} solids`, () => {
      const random = seededRandom(seed);
      const solids = randomSolids(random, count);
      const rays = randomRays(random, 2000);
      exhaustiveTracer(solids)(rays, 2000);
      const solid = rays.solid.slice();
      const distance = rays.distance.slice();
      hierarchyTracer(solids, buildHierarchy(solids.bounds, solids.count))(rays, 2000);
      expect(Array.from(rays.distance)).toEqual(Array.from(distance));
      // Two solids at one and the same distance may be named in either order.
      for (let i = 0; i < 2000; i++) expect(rays.solid[i] >= 0).toBe(solid[i] >= 0);
    });
  }
});

describe("hits", () => {
  it("lie on the solid they name, seed 8", () => {
    const random = seededRandom(8);
    const solids = randomSolids(random, 200);
    const rays = randomRays(random, 3000);
    exhaustiveTracer(solids)(rays, 3000);
    let hits = 0;
    for (let i = 0; i < 3000; i++) {
      const solid = rays.solid[i];
      if (solid < 0) continue;
      hits++;
      const t = rays.distance[i];
      const x = rays.ox[i] + t * rays.dx[i];
      const y = rays.oy[i] + t * rays.dy[i];
      const z = rays.oz[i] + t * rays.dz[i];
      const number = (at: number): number => solids.data[solid * solidStride + at];
      for (const axis of [0, 1, 2]) {
        const at = [x, y, z][axis];
        expect(at).toBeGreaterThan(solids.bounds[solid * 6 + axis] - 1e-9);
        expect(at).toBeLessThan(solids.bounds[solid * 6 + 3 + axis] + 1e-9);
      }
      if (solids.kind[solid] === solidKind.band) {
        const r = number(2) + number(4) * (z - number(3));
        expect(Math.hypot(x - number(0), y - number(1))).toBeCloseTo(r, 9);
      } else if (solids.kind[solid] === solidKind.plate) expect(z).toBeCloseTo(number(2), 9);
    }
    expect(hits).toBeGreaterThan(1000);
  });

  it("of a cone, a plate with a hole, a panel and a box are where geometry puts them", () => {
    const builder = solidsBuilder();
    builder.band({ x: 0, y: 0, r0: 1, z0: 0, r1: 0, z1: 1, outward: true });
    builder.plate({ x: 5, y: 0, z: 0, radius: 1, hole: 0.5, up: true });
    builder.panel({ x0: 10, y0: -1, x1: 10, y1: 1, z0: 0, z1: 1, left: true });
    builder.box({ x: 20, y: 0, angle: Math.PI / 4, halfX: 1, halfY: 1, z0: 0, z1: 1 });
    const solids = builder.build();
    const rays = rayBatch(6);
    const put = (i: number, o: readonly number[], d: readonly number[]): void => {
      [rays.ox[i], rays.oy[i], rays.oz[i]] = o as [number, number, number];
      [rays.dx[i], rays.dy[i], rays.dz[i]] = d as [number, number, number];
    };
    put(0, [-2, 0, 0.5], [1, 0, 0]);
    put(1, [5.75, 0, 1], [0, 0, -1]);
    put(2, [5.25, 0, 1], [0, 0, -1]);
    put(3, [9, 0, 0.5], [1, 0, 0]);
    put(4, [15, 0, 0.5], [1, 0, 0]);
    put(5, [20, 0, 0.5], [0, 0, 1]);
    exhaustiveTracer(solids)(rays, 6);
    expect(Array.from(rays.solid)).toEqual([0, 1, -1, 2, 3, 3]);
    expect(rays.distance[0]).toBeCloseTo(1.5, 12);
    expect(rays.distance[1]).toBeCloseTo(1, 12);
    expect(rays.distance[3]).toBeCloseTo(1, 12);
    expect(rays.distance[4]).toBeCloseTo(5 - Math.SQRT2, 12);
    expect(rays.distance[5]).toBeCloseTo(0.5, 12);
  });
});

describe("solids", () => {
  it("refuse impossible sizes by name", () => {
    const builder = solidsBuilder();
    const base = { x: 0, y: 0, z0: 0, z1: 1 };
    expect(() => builder.band({ ...base, r0: -1, r1: 1, outward: true })).toThrow(/band\.r0 is -1/);
    expect(() => builder.band({ ...base, z1: 0, r0: 1, r1: 1, outward: true })).toThrow(/band\.z1/);
    expect(() => builder.plate({ x: 0, y: 0, z: Number.NaN, radius: 1, up: true })).toThrow(/finite/);
    expect(() => builder.box({ ...base, angle: 0, halfX: 0, halfY: 1 })).toThrow(/box/);
    expect(() => builder.panel({ x0: 0, y0: 0, x1: 0, y1: 0, z0: 0, z1: 1, left: true })).toThrow(/panel/);
  });
});
