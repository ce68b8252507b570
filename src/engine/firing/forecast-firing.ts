import type { Outcome, RunControl } from "#base";
import type { Load, Schedule } from "#engine/kiln";
import type { RayTracer } from "#engine/radiation";
import type { Forecast, Grade } from "./forecast.ts";
import type { FiringFailure, FiringOptions } from "./options.ts";
import { prepareFiring } from "./prepare.ts";
import { runFiring } from "./run.ts";

/** Share of the work that preparing takes, for the progress bar. */
const preparing = 0.3;

/**
 * The computed firing of a load by a schedule: temperature and heat work of every piece, shelf and witness cone.
 *
 * A pure function of its arguments: the same inputs and seed give the same bytes. To try several schedules on one
 * setting, use `prepareFiring` once and `runFiring` for each.
 *
 * @returns the forecast, or why it could not be made, with words for the user
 * @throws Cancelled when `control` asks to stop
 */
export function forecastFiring(
  load: Load,
  schedule: Schedule,
  options: FiringOptions & { readonly grade: Grade; readonly seed: number; readonly tracer?: RayTracer | undefined },
  control: RunControl,
): Outcome<Forecast, FiringFailure> {
  const prepared = prepareFiring(load, options.grade, options.seed, part(control, 0, preparing), {
    tracer: options.tracer,
  });
  return runFiring(prepared, schedule, options, part(control, preparing, 1));
}

function part(control: RunControl, from: number, to: number): RunControl {
  return { ...control, progress: (fraction, words) => control.progress(from + (to - from) * fraction, words) };
}
