import type { JobEnd, Task } from "#jobs";
import type { Host } from "./command.ts";
import { progressOn } from "./progress.ts";

/** Does long work with its progress on stderr; Ctrl-C stops it, and nothing is left behind. */
export async function doWork(task: Task, host: Host): Promise<JobEnd> {
  const runner = host.makeRunner(1);
  const progress = progressOn(host);
  try {
    const job = runner.start(task, (state) => {
      if (state.state === "running") progress.tell(state.fraction, state.words);
    });
    const stop = (): void => job.cancel();
    host.interrupted.addEventListener("abort", stop, { once: true });
    if (host.interrupted.aborted) stop();
    return await job.ended;
  } finally {
    progress.clear();
    await runner.close();
  }
}
