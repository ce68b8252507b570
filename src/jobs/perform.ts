import { Cancelled, type RunControl } from "#base";
import { simdRayTracer } from "#kernels";
import { createHighsSolver } from "#solvers";
import { forecast, propose } from "#work";
import { hashOf } from "./hash.ts";
import type { JobEnd, Task } from "./runner.ts";

/** Does the work of a task and says how it ended. Never rejects: a mistake of ours ends as failed. */
export async function perform(task: Task, control: RunControl): Promise<JobEnd> {
  try {
    return await work(task, control);
  } catch (error) {
    if (error instanceof Cancelled) return { state: "cancelled" };
    console.error(error);
    const words = error instanceof Error ? error.message : String(error);
    return {
      state: "failed",
      error: "The computation stopped on a mistake in Spyhole.",
      remedy: `Your studio is unchanged. Report it with these words: ${words}`,
    };
  }
}

async function work({ request, document }: Task, control: RunControl): Promise<JobEnd> {
  if (request.work === "propose") {
    const proposed = propose(document, request, await createHighsSolver(), control);
    if (control.cancelled()) return { state: "cancelled" };
    if (!proposed.ok) return { state: "failed", ...proposed.failure };
    return { state: "done", result: { work: "propose", setting: proposed.value } };
  }
  const computed = forecast(
    document,
    request.setting,
    request.grade,
    { hash: hashOf, tracer: simdRayTracer() },
    control,
  );
  if (!computed.ok) return { state: "failed", ...computed.failure };
  return { state: "done", result: { work: "forecast", settingId: request.setting.id, ...computed.value } };
}
