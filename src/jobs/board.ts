import type { JobResult, JobState } from "#protocol";
import { randomUUID } from "node:crypto";
import { isEnd, type JobRunner, type RunningJob, type Task } from "./runner.ts";

/** Jobs by id: start, look at, follow, stop. */
export interface JobBoard {
  /** `known`: the result is there already, and nothing runs. */
  readonly start: (task: Task, known?: JobResult) => string;
  /** Null for an id that is not known (any more). */
  readonly state: (id: string) => JobState | null;
  /** Tells the present state at once and every later one. Returns how to stop listening; null for an unknown id. */
  readonly watch: (id: string, listener: (state: JobState) => void) => (() => void) | null;
  /** False for an id that is not known. */
  readonly cancel: (id: string) => boolean;
  readonly close: () => Promise<void>;
}

interface Entry {
  state: JobState;
  readonly listeners: Set<(state: JobState) => void>;
  running: RunningJob | null;
}

/** Ended jobs that can still be asked for. */
const endedKept = 50;

export function jobBoard(runner: JobRunner): JobBoard {
  const entries = new Map<string, Entry>();
  const ended: string[] = [];

  function note(id: string, entry: Entry, state: JobState): void {
    entry.state = state;
    for (const listener of entry.listeners) listener(state);
    if (!isEnd(state)) return;
    entry.running = null;
    ended.push(id);
    if (ended.length > endedKept) entries.delete(ended.shift()!);
  }

  return {
    start: (task, known) => {
      const id = randomUUID();
      const entry: Entry = { state: { state: "waiting" }, listeners: new Set(), running: null };
      entries.set(id, entry);
      if (known) note(id, entry, { state: "done", result: known });
      else entry.running = runner.start(task, (state) => note(id, entry, state));
      return id;
    },
    state: (id) => entries.get(id)?.state ?? null,
    watch: (id, listener) => {
      const entry = entries.get(id);
      if (!entry) return null;
      listener(entry.state);
      entry.listeners.add(listener);
      return () => entry.listeners.delete(listener);
    },
    cancel: (id) => {
      const entry = entries.get(id);
      entry?.running?.cancel();
      return entry !== undefined;
    },
    close: () => runner.close(),
  };
}
