import type { RunControl } from "#base";
import { perform } from "./perform.ts";
import type { JobRunner } from "./runner.ts";
import { threadClock } from "./thread-clock.ts";

/** Runs tasks in the calling thread, which they hold up: for tests and for a command that waits anyway. */
export function inlineRunner(): JobRunner {
  return {
    start: (task, onState) => {
      let cancelled = false;
      const control: RunControl = {
        cancelled: () => cancelled,
        progress: (fraction, words) => onState({ state: "running", fraction, words }),
        elapsed: threadClock(),
      };
      onState({ state: "waiting" });
      const ended = Promise.resolve()
        .then(() => perform(task, control))
        .then((end) => {
          onState(end);
          return end;
        });
      return { ended, cancel: () => void (cancelled = true) };
    },
    close: () => Promise.resolve(),
  };
}
