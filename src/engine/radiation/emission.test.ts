import { describe, expect, it } from "vitest";
import { seededRandom } from "#base";
import { rayBatch } from "#engine/geometry";
import { raySource } from "./emission.ts";
import { sceneBuilder, type SceneBuilder } from "./scene.ts";
import { gauge, makeStar, type StarShape } from "./star.ts";

/** A patch and how to tell in which of `bins` equally likely bins a point of it lies. */
interface Sampled {
  readonly name: string;
  readonly area: number;
  readonly build: (scene: SceneBuilder) => number;
  readonly bins: number;
  readonly bin: (x: number, y: number, z: number) => number;
}

function starCase(name: string, shape: StarShape, area: number): Sampled {
  const star = makeStar(shape, 1);
  return {
    name,
    area,
    build: (scene) => {
      const patch = scene.patch();
      const plate = { x: 0, y: 0, z: 0, radius: 1, up: true };
      scene.star({ star, x: 0, y: 0, cos: 1, sin: 0 }, plate, [0, 1], [[patch]]);
      return patch;
    },
    // Equal areas: gauge squared in four parts, and the two sides of the x axis, which all these shapes are even in.
    bins: 8,
    bin: (x, y) => Math.min(3, Math.floor(4 * gauge(shape, x, y) ** 2)) * 2 + (y > 0 ? 1 : 0),
  };
}

const cases: readonly Sampled[] = [
  {
    name: "cylinder",
    area: 2 * Math.PI * 0.3 * 0.2,
    build: (scene) => {
      const patch = scene.patch();
      scene.band({ x: 0, y: 0, r0: 0.3, z0: 0, r1: 0.3, z1: 0.2, outward: true }, [0, 0.2], 0, [[patch]]);
      return patch;
    },
    bins: 16,
    bin: (x, y, z) => Math.floor((z / 0.2) * 4) * 4 + Math.floor(((Math.atan2(y, x) + Math.PI) / (2 * Math.PI)) * 4),
  },
  {
    name: "cone",
    area: Math.PI * (0.1 + 0.3) * Math.hypot(0.2, 0.2),
    build: (scene) => {
      const patch = scene.patch();
      scene.band({ x: 0, y: 0, r0: 0.1, z0: 0, r1: 0.3, z1: 0.2, outward: false }, [0, 0.2], 0, [[patch]]);
      return patch;
    },
    bins: 10,
    bin: (x, y) => Math.floor((10 * (x * x + y * y - 0.01)) / 0.08),
  },
  {
    name: "ring",
    area: Math.PI * (0.09 - 0.01),
    build: (scene) => {
      const patch = scene.patch();
      scene.ring({ x: 0, y: 0, z: 0, inner: 0.1, outer: 0.3, up: false }, 0, [patch]);
      return patch;
    },
    bins: 10,
    bin: (x, y) => Math.floor((10 * (x * x + y * y - 0.01)) / 0.08),
  },
  {
    name: "box",
    area: 2 * (0.2 * 0.4 + 0.2 * 0.6 + 0.4 * 0.6),
    build: (scene) => {
      const patch = scene.patch();
      const box = { x: 0, y: 0, angle: 0, halfX: 0.1, halfY: 0.2, z0: 0, z1: 0.6 };
      scene.box(box, [patch, patch, patch, patch, patch, patch]);
      return patch;
    },
    // Its six faces cut into cells of 0.2 by 0.2 m: 22 of them.
    bins: 22,
    bin: (x, y, z) => {
      const i = Math.min(1, Math.floor((y + 0.2) / 0.2));
      const k = Math.min(2, Math.max(0, Math.floor(z / 0.2)));
      if (Math.abs(Math.abs(x) - 0.1) < 1e-5) return (x > 0 ? 6 : 0) + k * 2 + i;
      if (Math.abs(Math.abs(y) - 0.2) < 1e-5) return 12 + (y > 0 ? 3 : 0) + k;
      return 18 + (z > 0.3 ? 2 : 0) + i;
    },
  },
  starCase("half disc", { kind: "half-disc", radius: 0.3, offset: 0.4 / Math.PI }, (Math.PI / 2) * 0.09),
  starCase("rectangle", { kind: "rounded", halfX: 0.3, halfY: 0.15, corner: 0 }, 0.18),
  starCase("stadium", { kind: "rounded", halfX: 0.2, halfY: 0, corner: 0.1 }, 0.08 + Math.PI * 0.01),
  starCase("decagon", { kind: "polygon", sides: 10, inradius: 0.3, rotation: 0 }, 0.9 * Math.tan(Math.PI / 10)),
];

const rays = 40_000;

/** Greatest chi-square that 99.99 % of fair samplers stay below (Wilson and Hilferty's approximation). */
function chiSquareLimit(freedom: number): number {
  return freedom * (1 - 2 / (9 * freedom) + 3.72 * Math.sqrt(2 / (9 * freedom))) ** 3;
}

function chiSquare(counts: readonly number[], expected: number): number {
  return counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
}

describe("rays start evenly over a patch and by the cosine law", () => {
  for (const { name, area, build, bins, bin } of cases) {
    it(`${name}, random numbers of seed 3`, () => {
      const builder = sceneBuilder();
      const patch = build(builder);
      const scene = builder.build();
      expect(scene.emitters[patch].reduce((sum, emitter) => sum + emitter.area, 0)).toBeCloseTo(area, 6);
      const source = raySource(scene);
      const random = seededRandom(3);
      const batch = rayBatch(1);
      const places = Array.from({ length: bins }, () => 0);
      const angles = Array.from({ length: 20 }, () => 0);
      let worstLength = 0;
      let leastCosine = 1;
      for (let i = 0; i < rays; i++) {
        const [u, v, p, q] = [random.uniform(), random.uniform(), random.uniform(), random.uniform()];
        source(patch, u, v, 0, 0, batch, 0);
        // With p = 0 the ray is the normal.
        const [nx, ny, nz] = [batch.dx[0], batch.dy[0], batch.dz[0]];
        source(patch, u, v, p, q, batch, 0);
        const [dx, dy, dz] = [batch.dx[0], batch.dy[0], batch.dz[0]];
        const cosine = nx * dx + ny * dy + nz * dz;
        worstLength = Math.max(worstLength, Math.abs(Math.hypot(dx, dy, dz) - 1));
        leastCosine = Math.min(leastCosine, cosine);
        // Cosine law: sin² of the angle from the normal is uniform.
        angles[Math.min(19, Math.floor(20 * (1 - cosine * cosine)))]++;
        places[bin(batch.ox[0] - 1e-6 * nx, batch.oy[0] - 1e-6 * ny, batch.oz[0] - 1e-6 * nz)]++;
      }
      expect(worstLength).toBeLessThan(1e-12);
      expect(leastCosine).toBeGreaterThanOrEqual(0);
      expect(places.reduce((sum, count) => sum + count, 0)).toBe(rays);
      expect(chiSquare(places, rays / bins)).toBeLessThan(chiSquareLimit(bins - 1));
      expect(chiSquare(angles, rays / 20)).toBeLessThan(chiSquareLimit(19));
    });
  }

  it("no ray starts under a cover", () => {
    const builder = sceneBuilder();
    const patch = builder.patch();
    builder.ring({ x: 0, y: 0, z: 0, inner: 0, outer: 0.3, up: true }, 0, [patch]);
    builder.cover(patch, { x: 0.1, y: 0, angle: 0.5, halfX: 0.05, halfY: 0.02, radius: 0, hole: 0 }, 0.004);
    builder.cover(patch, { x: -0.1, y: 0, angle: 0, halfX: 0, halfY: 0, radius: 0.08, hole: 0.06 }, 0.00028 * Math.PI);
    const source = raySource(builder.build());
    const random = seededRandom(4);
    const batch = rayBatch(1);
    let started = 0;
    let hidden = 0;
    for (let i = 0; i < rays; i++) {
      if (!source(patch, random.uniform(), random.uniform(), 0, 0, batch, 0)) continue;
      started++;
      const ring = Math.hypot(batch.ox[0] + 0.1, batch.oy[0]);
      if (ring <= 0.08 && ring >= 0.06) hidden++;
    }
    expect(hidden).toBe(0);
    const open = 1 - (0.1 * 0.04 + Math.PI * (0.08 ** 2 - 0.06 ** 2)) / (Math.PI * 0.09);
    expect(started / rays).toBeCloseTo(open, 2);
  });
});
