import type { RunControl } from "#base";
import { parentPort } from "node:worker_threads";
import { perform } from "./perform.ts";
import { threadClock } from "./thread-clock.ts";
import type { TaskMessage, WorkerMessage } from "./thread-messages.ts";

/* Entry of a worker thread: does one task after another. Bundled by tools/build.mjs. */

/** Progress is told this often at most [ms]: faster than eyes, slow enough to cost nothing. */
const tellEvery = 80;

const port = parentPort!;
const send = (message: WorkerMessage): void => port.postMessage(message);

port.on("message", ({ task, stop }: TaskMessage) => {
  let told = 0;
  const control: RunControl = {
    cancelled: () => Atomics.load(stop, 0) === 1,
    progress: (fraction, words) => {
      const now = performance.now();
      if (now - told < tellEvery) return;
      told = now;
      send({ kind: "progress", fraction, words });
    },
    elapsed: threadClock(),
  };
  void perform(task, control).then((end) => send({ kind: "end", end }));
});
