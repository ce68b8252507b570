/*
 * Nearest hits per second of CPU time on one thread: the SIMD kernel, its plain twin, Embree and three-mesh-bvh, the
 * same rays in the same scene in one run. Embree and three-mesh-bvh get the scene as triangles.
 *
 *   node tools/run-source.mjs benchmarks/rays.ts
 *
 * Embree: Debian's libembree-dev and g++; it is left out where they are missing.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from "three";
import { MeshBVH } from "three-mesh-bvh";
import { seededRandom } from "#base";
import { meshLoad, plainRayTracer, raySource, resolutionFor, type RayTracer, type Scene } from "#engine/radiation";
import { simdRayTracer } from "#kernels";
import { demoLoad } from "./demo-load.ts";
import { triangulate } from "./triangulate.ts";

const total = 2 ** 20;
const rounds = 5;
/** Of a circle, for the triangles. */
const segments = 48;

/** Rays as a forecast sends them, patch by patch by the cosine law: origin and direction, six numbers each. */
function raysOfForecast(scene: Scene): Float32Array {
  const random = seededRandom(1);
  const { rays } = plainRayTracer.prepare(scene);
  const source = raySource(scene);
  const out = new Float32Array(total * 6);
  for (let i = 0; i < total;) {
    const patch = Math.floor((i / total) * scene.patchCount);
    const [u, v, p, q] = [random.uniform(), random.uniform(), random.uniform(), random.uniform()];
    if (!source(patch, u, v, p, q, rays, 0)) continue;
    out.set([rays.ox[0], rays.oy[0], rays.oz[0], rays.dx[0], rays.dy[0], rays.dz[0]], i * 6);
    i++;
  }
  return out;
}

function cpuSeconds(work: () => void): number {
  const began = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1e6;
}

interface Timed {
  readonly name: string;
  readonly seconds: number;
  readonly hits: number;
  readonly sum: number;
}

function timeTracer(tracer: RayTracer, scene: Scene, starts: Float32Array): Timed {
  const { rays, trace } = tracer.prepare(scene);
  let fastest = Infinity;
  let hits = 0;
  let sum = 0;
  for (let round = 0; round < rounds; round++) {
    let seconds = 0;
    hits = 0;
    sum = 0;
    for (let first = 0; first < total; first += rays.capacity) {
      const count = Math.min(rays.capacity, total - first);
      for (let i = 0; i < count; i++) {
        const at = (first + i) * 6;
        rays.ox[i] = starts[at]!;
        rays.oy[i] = starts[at + 1]!;
        rays.oz[i] = starts[at + 2]!;
        rays.dx[i] = starts[at + 3]!;
        rays.dy[i] = starts[at + 4]!;
        rays.dz[i] = starts[at + 5]!;
      }
      seconds += cpuSeconds(() => trace(rays, count));
      for (let i = 0; i < count; i++) {
        if (rays.solid[i] < 0) continue;
        hits++;
        sum += rays.distance[i];
      }
    }
    fastest = Math.min(fastest, seconds);
  }
  return { name: tracer.name, seconds: fastest, hits, sum };
}

function timeEmbree(triangles: Float32Array, starts: Float32Array): Timed | null {
  const folder = mkdtempSync(path.join(tmpdir(), "rays-"));
  try {
    const program = path.join(folder, "rays");
    const source = fileURLToPath(new URL("embree/rays.cpp", import.meta.url));
    execFileSync("g++", ["-O3", "-march=native", "-o", program, source, "-lembree3"], { stdio: "pipe" });
    const file = path.join(folder, "scene");
    const counts = Int32Array.of(triangles.length / 9, total);
    writeFileSync(file, Buffer.concat([counts, triangles, starts].map((part) => Buffer.from(part.buffer))));
    const result = JSON.parse(execFileSync(program, [file, String(rounds)], { encoding: "utf8" })) as Omit<
      Timed,
      "name"
    >;
    return { name: "Embree rtcIntersect1", ...result };
  } catch (error) {
    process.stderr.write(`Embree left out: ${(error as Error).message.split("\n")[0]}\n`);
    return null;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function timeMeshBvh(triangles: Float32Array, starts: Float32Array): Timed {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(triangles, 3));
  const bvh = new MeshBVH(geometry);
  const ray = new Ray(new Vector3(), new Vector3());
  // A sixteenth of the rays: it is slow, and rays are all alike.
  const count = total / 16;
  let fastest = Infinity;
  let hits = 0;
  let sum = 0;
  for (let round = 0; round < 2; round++) {
    hits = 0;
    sum = 0;
    const seconds = cpuSeconds(() => {
      for (let i = 0; i < count; i++) {
        const at = i * 6;
        ray.origin.set(starts[at], starts[at + 1], starts[at + 2]);
        ray.direction.set(starts[at + 3], starts[at + 4], starts[at + 5]);
        const hit = bvh.raycastFirst(ray, DoubleSide);
        if (!hit) continue;
        hits++;
        sum += hit.distance;
      }
    });
    fastest = Math.min(fastest, seconds);
  }
  return { name: "three-mesh-bvh", seconds: fastest * 16, hits: hits * 16, sum: sum * 16 };
}

const load = await demoLoad();
const { scene } = meshLoad(load, resolutionFor(load, "standard"));
const starts = raysOfForecast(scene);
const triangles = triangulate(scene.solids, segments);
process.stdout.write(
  `${total} rays, ${load.setting.pieces.length} pieces, ${scene.solids.count} solids, ${triangles.length / 9} triangles\n`,
);
const kernel = timeTracer(simdRayTracer(), scene, starts);
const others = [
  timeTracer(plainRayTracer, scene, starts),
  timeEmbree(triangles, starts),
  timeMeshBvh(triangles, starts),
];
const again = timeTracer(simdRayTracer(), scene, starts);
const best = again.seconds < kernel.seconds ? again : kernel;
for (const timed of [best, ...others]) {
  if (!timed) continue;
  const rate = total / timed.seconds / 1e6;
  const line = [
    timed.name.padEnd(22),
    `${rate.toFixed(2)} Mrays/s`.padStart(14),
    `kernel is ${(timed.seconds / best.seconds).toFixed(2)} x`.padStart(20),
    `mean distance ${(timed.sum / timed.hits).toFixed(5)} m`,
  ];
  process.stdout.write(`${line.join("  ")}\n`);
}
