import type { RunControl } from "#base";
import type { Exchange, Mesh } from "./mesh.ts";
import { exchangeFromCounts } from "./reciprocity.ts";
import type { Scene } from "./scene.ts";
import { traceRays, type RayCounts, type TraceOptions } from "./trace.ts";

/** An exchange together with the ray counts it came from, so that a changed scene re-traces only what changed. */
export interface TracedExchange extends Exchange {
  readonly counts: RayCounts;
}

/**
 * Who sees whom in a scene, by rays.
 *
 * @param raysPerPatch 256 for a preview, 1024 for a forecast to act on
 * @param seed         any whole number: same inputs and seed give the same bytes
 * @throws Cancelled when `control` asks to stop
 * @throws RangeError if more than 1 ray in 1000 leaves the enclosure: the scene is not closed
 *
 * Accuracy: see `Exchange.rayError`; docs/explanation/radiation.md.
 */
export function traceExchange(
  scene: Scene,
  mesh: Mesh,
  raysPerPatch: number,
  seed: number,
  control: RunControl,
  options: TraceOptions = {},
): TracedExchange {
  const counts = traceRays(scene, raysPerPatch, seed, control, options);
  if (counts.lost > counts.traced / 1000) {
    throw new RangeError(`scene lets ${counts.lost} of ${counts.traced} rays out; expected a closed enclosure`);
  }
  return { ...exchangeFromCounts(counts, mesh.area), counts };
}
