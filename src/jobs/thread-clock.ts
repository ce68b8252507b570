import { readFileSync } from "node:fs";

/**
 * A clock of the time used by the calling thread since now [s]: CPU time on Linux, so that a busy machine does not
 * shorten the work; wall time elsewhere.
 *
 * Accuracy: 2 ms, the age a reading may have: asking the system each time would cost more than a step of the work.
 */
export function threadClock(): () => number {
  const read = cpuSeconds() === null ? (): number => performance.now() / 1000 : (): number => cpuSeconds() ?? 0;
  const began = read();
  let reading = began;
  let readAt = performance.now();
  return () => {
    const now = performance.now();
    if (now - readAt > 2) {
      reading = read();
      readAt = now;
    }
    return reading - began;
  };
}

/** CPU time of the calling thread [s], or null where the system does not say. */
function cpuSeconds(): number | null {
  try {
    const nanoseconds = Number(readFileSync("/proc/thread-self/schedstat", "latin1").split(" ")[0]);
    return Number.isFinite(nanoseconds) && nanoseconds > 0 ? nanoseconds / 1e9 : null;
  } catch {
    return null;
  }
}
