import type { JobRequest, JobState } from "#protocol";
import type { StudioDocument } from "#records";

/** Long work: what is asked, and the studio it is about. */
export interface Task {
  readonly request: JobRequest;
  readonly document: StudioDocument;
}

export type JobEnd = Extract<JobState, { readonly state: "done" | "failed" | "cancelled" }>;

export interface RunningJob {
  /** Asks it to stop; it ends as cancelled soon after, even from a loop that does not listen. */
  readonly cancel: () => void;
  /** Never rejects. */
  readonly ended: Promise<JobEnd>;
}

/** Runs tasks somewhere: in threads, or where it is called. */
export interface JobRunner {
  /** `onState` hears waiting, running and the end, in that order. */
  readonly start: (task: Task, onState: (state: JobState) => void) => RunningJob;
  /** Stops what runs and gives threads back. */
  readonly close: () => Promise<void>;
}

export function isEnd(state: JobState): state is JobEnd {
  return state.state === "done" || state.state === "failed" || state.state === "cancelled";
}
