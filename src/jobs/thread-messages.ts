import type { JobEnd, Task } from "./runner.ts";

/** To a worker thread: a task, and the flag that turns 1 when it is to stop. */
export interface TaskMessage {
  readonly task: Task;
  readonly stop: Int32Array;
}

/** From a worker thread. */
export type WorkerMessage =
  | { readonly kind: "progress"; readonly fraction: number; readonly words: string }
  | { readonly kind: "end"; readonly end: JobEnd };
