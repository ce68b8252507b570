import { stopIfCancelled, type RunControl } from "#base";
import { hierarchyTracer, rayBatch, type RayBatch, type Tracer } from "#engine/geometry";
import { mix32, sobolPoints } from "#engine/numerics";
import { raySource } from "./emission.ts";
import { locator } from "./locate.ts";
import type { Scene } from "./scene.ts";

/**
 * What finds the nearest solid ahead of many rays. The plain one is `plainRayTracer`; a faster one may be passed in
 * wherever rays are traced.
 */
export interface RayTracer {
  readonly name: string;
  /** Makes a scene ready. The batch belongs to the tracer and is filled anew for every run. */
  readonly prepare: (scene: Scene) => { readonly rays: RayBatch; readonly trace: Tracer };
}

export const plainRayTracer: RayTracer = {
  name: "plain",
  prepare: (scene) => ({ rays: rayBatch(4096), trace: hierarchyTracer(scene.solids, scene.hierarchy) }),
};

/** How often rays from each patch arrived at each other, in compressed rows with columns rising. */
export interface RayCounts {
  readonly rowStart: Int32Array;
  readonly column: Int32Array;
  readonly count: Int32Array;
  /** Rays of each patch that arrived at a front; the rest ended in a back or in the open and are left out. */
  readonly arrived: Int32Array;
  /** Rays that met nothing at all, over all patches. */
  readonly lost: number;
  readonly traced: number;
}

/** For a patch: the index-th point's coordinate in each of the four dimensions of a ray's start, 0..2^32-1. */
export type RayPoints = (patch: number) => (index: number, dimension: number) => number;

/** Owen-scrambled Sobol points, the same for all patches but shifted by a random digit pattern for each. */
export function sobolRayPoints(seed: number): RayPoints {
  let points: Uint32Array = new Uint32Array(0);
  return (patch) => {
    const shift = Uint32Array.from({ length: 4 }, (_, dimension) => mix32(mix32(patch * 4 + dimension) ^ seed));
    return (index, dimension) => {
      if (index * 4 >= points.length) points = sobolPoints(4, Math.max(1024, index * 2), seed);
      return (points[index * 4 + dimension] ^ shift[dimension]) >>> 0;
    };
  };
}

export interface TraceOptions {
  readonly tracer?: RayTracer | undefined;
  /** Where rays start; by default `sobolRayPoints`. */
  readonly points?: RayPoints | undefined;
  /** Trace these patches only; the others' rows stay empty. */
  readonly patches?: readonly number[] | undefined;
}

/**
 * Sends `raysPerPatch` rays from each patch by the cosine law and counts where they arrive.
 *
 * Points under a cover are passed over and replaced, up to four times `raysPerPatch` points in all.
 *
 * @param seed any whole number; same scene, rays and seed give the same counts
 * @throws Cancelled when `control` asks to stop
 */
export function traceRays(
  scene: Scene,
  raysPerPatch: number,
  seed: number,
  control: RunControl,
  options: TraceOptions = {},
): RayCounts {
  const most = 4 * raysPerPatch;
  const points = options.points ?? sobolRayPoints(seed);
  const { rays, trace } = (options.tracer ?? plainRayTracer).prepare(scene);
  const source = raySource(scene);
  const locate = locator(scene);
  const { patchCount } = scene;
  const chosen = options.patches ? new Set(options.patches) : null;

  const rowStart = new Int32Array(patchCount + 1);
  const arrived = new Int32Array(patchCount);
  let column = new Int32Array(1024);
  let count = new Int32Array(1024);
  let used = 0;
  let lost = 0;
  let traced = 0;
  const tally = new Int32Array(patchCount);
  const touched = new Int32Array(patchCount);
  const unit = 2 ** -32;

  for (let patch = 0; patch < patchCount; patch++) {
    if (patch % 64 === 0) {
      stopIfCancelled(control);
      control.progress(patch / patchCount, "Tracing heat rays");
    }
    const point = points(patch);
    let touchedCount = 0;
    let sent = 0;
    let index = 0;
    const wanted = !chosen || chosen.has(patch) ? raysPerPatch : 0;
    while (sent < wanted && index < most) {
      let batch = 0;
      while (batch < rays.capacity && sent < wanted && index < most) {
        const started = source(
          patch,
          point(index, 0) * unit,
          point(index, 1) * unit,
          point(index, 2) * unit,
          point(index, 3) * unit,
          rays,
          batch,
        );
        index++;
        if (!started) continue;
        batch++;
        sent++;
      }
      trace(rays, batch);
      traced += batch;
      for (let i = 0; i < batch; i++) {
        const solid = rays.solid[i];
        if (solid < 0) {
          lost++;
          continue;
        }
        const t = rays.distance[i];
        const dx = rays.dx[i];
        const dy = rays.dy[i];
        const dz = rays.dz[i];
        const hit = locate(solid, rays.ox[i] + t * dx, rays.oy[i] + t * dy, rays.oz[i] + t * dz, dx, dy, dz);
        if (hit < 0) continue;
        if (tally[hit] === 0) touched[touchedCount++] = hit;
        tally[hit] = tally[hit] + 1;
      }
    }
    const row = touched.subarray(0, touchedCount).sort();
    if (used + touchedCount > column.length) {
      column = grown(column, used + touchedCount);
      count = grown(count, used + touchedCount);
    }
    let sum = 0;
    for (const hit of row) {
      column[used] = hit;
      count[used++] = tally[hit]!;
      sum += tally[hit];
      tally[hit] = 0;
    }
    arrived[patch] = sum;
    rowStart[patch + 1] = used;
  }
  control.progress(1, "Tracing heat rays");
  return { rowStart, column: column.slice(0, used), count: count.slice(0, used), arrived, lost, traced };
}

function grown(array: Int32Array<ArrayBuffer>, atLeast: number): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(Math.max(array.length * 2, atLeast));
  larger.set(array);
  return larger;
}
