import type { RunControl } from "#base";
import { exchangeRows } from "#engine/conduction";
import type { Load } from "#engine/kiln";
import type { SparseRows } from "#engine/numerics";
import {
  meshLoad,
  resolutionFor,
  traceExchange,
  type Exchange,
  type Mesh,
  type RayTracer,
  type Resolution,
} from "#engine/radiation";
import type { Grade } from "./forecast.ts";

/** A load cut into patches whose views of one another are known: ready to be fired with any schedule. */
export interface PreparedFiring {
  readonly load: Load;
  readonly grade: Grade;
  readonly seed: number;
  readonly resolution: Resolution;
  readonly mesh: Mesh;
  /** Exchange areas as the solver takes them. */
  readonly exchange: SparseRows;
  readonly rays: number;
  readonly rayError: number;
}

export interface PrepareOptions {
  /** Default: as the grade asks for. */
  readonly resolution?: Resolution;
  /** Finds what each ray hits; default the plain one. Another may differ in the last digits. */
  readonly tracer?: RayTracer | undefined;
}

/**
 * Cuts a load into patches and traces who sees whom.
 *
 * The costly part that does not depend on the schedule: keep it to try another.
 *
 * @param seed  any whole number; the same load, grade, seed and tracer give the same bytes
 * @throws Cancelled when `control` asks to stop
 */
export function prepareFiring(
  load: Load,
  grade: Grade,
  seed: number,
  control: RunControl,
  options: PrepareOptions = {},
): PreparedFiring {
  const resolution = options.resolution ?? resolutionFor(load, grade === "full" ? "standard" : "preview");
  const { mesh, scene } = meshLoad(load, resolution);
  const exchange = traceExchange(scene, mesh, resolution.raysPerPatch, seed, control, { tracer: options.tracer });
  return preparedFrom(load, grade, seed, resolution, mesh, exchange);
}

/** The same from a mesh and exchange made elsewhere, e.g. re-traced in part after one piece moved. */
export function preparedFrom(
  load: Load,
  grade: Grade,
  seed: number,
  resolution: Resolution,
  mesh: Mesh,
  exchange: Exchange,
): PreparedFiring {
  const { rays, rayError } = exchange;
  return { load, grade, seed, resolution, mesh, exchange: exchangeRows(exchange), rays, rayError };
}
