import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { seededRandom, unattended } from "#base";
import {
  meshLoad,
  plainRayTracer,
  raySource,
  resolutionFor,
  traceExchange,
  type RayTracer,
  type Scene,
} from "#engine/radiation";
import { inventedLoad } from "../engine/radiation/invented-load.ts";
import { buildKernel } from "../../tools/build-kernels.ts";
import { simdRayTracer } from "./index.ts";

interface Hits {
  readonly solid: Int32Array;
  readonly distance: Float64Array;
}

/** Nearest hits of `total` rays sent from all patches by the cosine law. */
function hitsOf(tracer: RayTracer, scene: Scene, total: number, seed: number): Hits {
  const random = seededRandom(seed);
  const { rays, trace } = tracer.prepare(scene);
  const source = raySource(scene);
  const hits = { solid: new Int32Array(total), distance: new Float64Array(total) };
  for (let first = 0; first < total; first += rays.capacity) {
    const count = Math.min(rays.capacity, total - first);
    for (let i = 0; i < count;) {
      const patch = random.below(scene.patchCount);
      if (source(patch, random.uniform(), random.uniform(), random.uniform(), random.uniform(), rays, i)) i++;
    }
    trace(rays, count);
    for (let i = 0; i < count; i++) {
      hits.solid[first + i] = rays.solid[i];
      hits.distance[first + i] = rays.distance[i];
    }
  }
  return hits;
}

describe("the SIMD ray tracer against its plain twin", () => {
  const total = 400_000;
  const load = inventedLoad();

  it.each([1, 2])("names the same solid but for 1 ray in 100,000, and the same distance; seed %i", (seed) => {
    const { scene } = meshLoad(load, resolutionFor(load, "standard"));
    const plain = hitsOf(plainRayTracer, scene, total, seed);
    const simd = hitsOf(simdRayTracer(), scene, total, seed);
    let other = 0;
    let farthest = 0;
    for (let i = 0; i < total; i++) {
      if (plain.solid[i] !== simd.solid[i]) other++;
      else farthest = Math.max(farthest, Math.abs(plain.distance[i] - simd.distance[i]));
    }
    expect(other / total).toBeLessThanOrEqual(1e-5);
    expect(farthest).toBeLessThan(1e-4);
  });

  it("gives the same exchange areas", () => {
    const { mesh, scene } = meshLoad(load, resolutionFor(load, "preview"));
    const areas = (tracer: RayTracer): Float64Array => {
      const { rowStart, column, exchangeArea } = traceExchange(scene, mesh, 256, 1, unattended, { tracer });
      const dense = new Float64Array(mesh.patchCount ** 2);
      for (let i = 0; i < mesh.patchCount; i++) {
        for (let at = rowStart[i]; at < rowStart[i + 1]; at++)
          dense[i * mesh.patchCount + column[at]] = exchangeArea[at];
      }
      return dense;
    };
    const plain = areas(plainRayTracer);
    const simd = areas(simdRayTracer());
    const total = plain.reduce((sum, area) => sum + area, 0);
    const apart = plain.reduce((sum, area, i) => sum + Math.abs(area - simd[i]), 0);
    expect(apart / total).toBeLessThan(1e-3);
  });
});

it("is the module that its source compiles to", async () => {
  expect(await buildKernel("rays")).toBe(readFileSync(new URL("rays-wasm.ts", import.meta.url), "utf8"));
});
