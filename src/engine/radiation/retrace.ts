import type { RunControl } from "#base";
import type { LoadMesh } from "./mesh-builder.ts";
import type { BodyRef, Mesh } from "./mesh.ts";
import { exchangeFromCounts } from "./reciprocity.ts";
import type { TracedExchange } from "./trace-exchange.ts";
import { traceRays, type RayCounts, type TraceOptions } from "./trace.ts";

/** A load's mesh with the exchange traced in it. */
export interface TracedLoad extends LoadMesh {
  readonly exchange: TracedExchange;
}

export interface Retraced {
  readonly exchange: TracedExchange;
  /** Patches whose rays were sent again; all of them where the change was too large to re-use anything. */
  readonly patches: number;
}

/**
 * The exchange of a load after some of its pieces moved, re-tracing only the patches they touch: their own, those
 * that saw them before, those they see now, and those whose uncovered part changed.
 *
 * Everything is traced anew where the two loads are not cut alike, e.g. when a piece was added or taken out.
 *
 * @param before   the load as it was, and its exchange
 * @param after    the changed load, cut at the same resolution
 * @param pieceIds pieces that moved
 * @param rays     per patch, and the seed, as before: rows that are kept must fit those that are new
 * @throws Cancelled when `control` asks to stop
 *
 * Accuracy: as tracing all anew but for patches that see a moved piece by less than about 1 in `rays`
 * (retrace.test.ts).
 */
export function retraceMoved(
  before: TracedLoad,
  after: LoadMesh,
  pieceIds: readonly string[],
  rays: number,
  seed: number,
  control: RunControl,
  options: Pick<TraceOptions, "tracer"> = {},
): Retraced {
  const { mesh, scene } = after;
  const { counts } = before.exchange;
  if (!cutAlike(before.mesh, mesh)) {
    const all = traceRays(scene, rays, seed, control, options);
    return { exchange: { ...exchangeFromCounts(all, mesh.area), counts: all }, patches: mesh.patchCount };
  }
  const moved = new Set(pieceIds);
  const isMoved = Uint8Array.from(mesh.bodyOf, (body) => {
    const ref = mesh.bodies[body];
    return ref.kind === "piece" && moved.has(ref.pieceId) ? 1 : 0;
  });
  const own = indicesWhere(isMoved);
  const ownCounts = traceRays(scene, rays, seed, control, { ...options, patches: own });

  const touched = new Uint8Array(mesh.patchCount);
  for (let patch = 0; patch < mesh.patchCount; patch++) {
    if (before.scene.hidden[patch] !== scene.hidden[patch]) touched[patch] = 1;
    for (let k = counts.rowStart[patch]; k < counts.rowStart[patch + 1]; k++) {
      if (isMoved[counts.column[k]]) touched[patch] = 1;
    }
  }
  for (const column of ownCounts.column) touched[column] = 1;
  // Looked at from the other side as well: what the pieces saw where they were sees past them now.
  for (const patch of own) {
    for (let k = counts.rowStart[patch]; k < counts.rowStart[patch + 1]; k++) touched[counts.column[k]] = 1;
    touched[patch] = 0;
  }
  const others = indicesWhere(touched);
  const otherCounts = traceRays(scene, rays, seed, control, { ...options, patches: others });
  const merged = mergeRows(mesh.patchCount, (patch) => {
    if (isMoved[patch]) return ownCounts;
    return touched[patch] ? otherCounts : counts;
  });
  const traced = ownCounts.traced + otherCounts.traced;
  const joined: RayCounts = { ...merged, lost: ownCounts.lost + otherCounts.lost, traced: counts.traced };
  const exchange = { ...exchangeFromCounts(joined, mesh.area), counts: joined };
  return { exchange: { ...exchange, rays: traced }, patches: own.length + others.length };
}

function indicesWhere(flags: Uint8Array): readonly number[] {
  const indices: number[] = [];
  flags.forEach((flag, index) => {
    if (flag) indices.push(index);
  });
  return indices;
}

/** True if both meshes have the same bodies in the same order, with as many patches each. */
function cutAlike(a: Mesh, b: Mesh): boolean {
  return (
    a.patchCount === b.patchCount &&
    a.bodies.length === b.bodies.length &&
    a.bodies.every((body, i) => nameOf(body) === nameOf(b.bodies[i])) &&
    a.bodyOf.every((body, patch) => body === b.bodyOf[patch])
  );
}

function nameOf(body: BodyRef): string {
  return JSON.stringify(body);
}

/** Takes each patch's row from the counts named for it. */
function mergeRows(
  patchCount: number,
  from: (patch: number) => RayCounts,
): Pick<RayCounts, "rowStart" | "column" | "count" | "arrived"> {
  const rowStart = new Int32Array(patchCount + 1);
  const arrived = new Int32Array(patchCount);
  for (let patch = 0; patch < patchCount; patch++) {
    const source = from(patch);
    rowStart[patch + 1] = rowStart[patch] + source.rowStart[patch + 1] - source.rowStart[patch];
    arrived[patch] = source.arrived[patch];
  }
  const column = new Int32Array(rowStart[patchCount]);
  const count = new Int32Array(rowStart[patchCount]);
  for (let patch = 0; patch < patchCount; patch++) {
    const source = from(patch);
    const [first, last] = [source.rowStart[patch], source.rowStart[patch + 1]];
    column.set(source.column.subarray(first, last), rowStart[patch]);
    count.set(source.count.subarray(first, last), rowStart[patch]);
  }
  return { rowStart, column, count, arrived };
}
