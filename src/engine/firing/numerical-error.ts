import type { Grade } from "./forecast.ts";

/**
 * Standard deviation of a piece's mean heatwork from the computation alone [cones], by grade.
 *
 * Root mean square over the pieces against the radiation mesher's fine cut (3600-4000 patches, 2048 rays), the worst of
 * three loads (even mugs, tiles in low layers below mugs and bowls, the demo's glaze load): preview 0.065, 0.179,
 * 0.045; full 0.050, 0.104, 0.035. Most of it is one shift of the whole load, from the mesh about the sensor.
 * Rays alone (another seed) give 0.01-0.03, time steps below 0.003. `validation/mesh-error.ts` prints the table;
 * tests/firing.test.ts holds preview and full to it.
 */
const numericalErrors: Readonly<Record<Grade, { readonly piece: number; readonly words: string }>> = {
  preview: { piece: 0.18, words: "This is a quick preview on a coarse mesh; the full forecast is closer." },
  full: { piece: 0.1, words: "Rays and mesh are finite." },
};

export default numericalErrors;
