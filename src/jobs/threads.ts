import type { JobState } from "#protocol";
import { Worker } from "node:worker_threads";
import type { JobEnd, JobRunner, Task } from "./runner.ts";
import type { TaskMessage, WorkerMessage } from "./thread-messages.ts";

export interface ThreadOptions {
  /** The bundled worker (`worker.ts`). */
  readonly entry: URL;
  /** Tasks at once. */
  readonly size: number;
  /** How long a task may ignore a request to stop before its thread is ended [ms]. */
  readonly patience?: number;
}

interface Job {
  readonly task: Task;
  readonly onState: (state: JobState) => void;
  readonly stop: Int32Array;
  readonly settle: (end: JobEnd) => void;
  worker: Worker | null;
  ended: boolean;
}

/** Runs tasks in worker threads, the rest waiting in line. A thread that dies takes only its own task with it. */
export function threadRunner(options: ThreadOptions): JobRunner {
  const { size } = options;
  const patience = options.patience ?? 1500;
  const idle: Worker[] = [];
  const busy = new Map<Worker, Job>();
  const line: Job[] = [];
  let closed = false;

  function finish(job: Job, end: JobEnd): void {
    if (job.ended) return;
    job.ended = true;
    job.onState(end);
    job.settle(end);
  }

  function spawn(): Worker {
    const worker = new Worker(options.entry);
    worker.on("message", (message: WorkerMessage) => {
      const job = busy.get(worker);
      if (!job) return;
      if (message.kind === "progress") {
        if (!job.ended) job.onState({ state: "running", fraction: message.fraction, words: message.words });
        return;
      }
      busy.delete(worker);
      idle.push(worker);
      worker.unref();
      finish(job, message.end);
      next();
    });
    let reason = "The computation ended without an answer.";
    worker.on("error", (error) => (reason = plainReason(error)));
    worker.on("exit", () => {
      const job = busy.get(worker);
      busy.delete(worker);
      const at = idle.indexOf(worker);
      if (at >= 0) idle.splice(at, 1);
      if (job) {
        const stopped = closed || Atomics.load(job.stop, 0) === 1;
        const remedy =
          "Your studio is unchanged. Ask again; if it happens twice, take some pieces out or use the quick estimate.";
        finish(job, stopped ? { state: "cancelled" } : { state: "failed", error: reason, remedy });
      }
      next();
    });
    return worker;
  }

  function next(): void {
    if (closed) return;
    while (line.length > 0 && busy.size < size) {
      const job = line.shift()!;
      if (job.ended) continue;
      const worker = idle.pop() ?? spawn();
      worker.ref();
      busy.set(worker, job);
      job.worker = worker;
      job.onState({ state: "running", fraction: 0, words: "Starting" });
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, not a window
      worker.postMessage({ task: job.task, stop: job.stop } satisfies TaskMessage);
    }
  }

  function cancel(job: Job): void {
    if (job.ended) return;
    Atomics.store(job.stop, 0, 1);
    const { worker } = job;
    if (!worker) {
      finish(job, { state: "cancelled" });
      return;
    }
    setTimeout(() => {
      if (!job.ended && busy.get(worker) === job) void worker.terminate();
    }, patience).unref();
  }

  return {
    start: (task, onState) => {
      let settle!: (end: JobEnd) => void;
      const ended = new Promise<JobEnd>((resolve) => (settle = resolve));
      const stop = new Int32Array(new SharedArrayBuffer(4));
      const job: Job = { task, onState, stop, settle, worker: null, ended: false };
      line.push(job);
      onState({ state: "waiting" });
      next();
      return { ended, cancel: () => cancel(job) };
    },
    close: async () => {
      closed = true;
      for (const job of line.splice(0)) finish(job, { state: "cancelled" });
      for (const job of busy.values()) Atomics.store(job.stop, 0, 1);
      await Promise.all([...idle, ...busy.keys()].map((worker) => worker.terminate()));
    },
  };
}

function plainReason(error: unknown): string {
  const code = error instanceof Error && "code" in error ? error.code : null;
  if (code === "ERR_WORKER_OUT_OF_MEMORY") return "The computation needed more memory than there is.";
  return `The computation broke off: ${error instanceof Error ? error.message : String(error)}`;
}
