import { apiPaths, jobStartedSchema, type JobRequest, type JobResult, type JobState } from "#protocol";
import { answered, failed, jsonIn, refusalIn, type ServerDoor } from "./server-door.ts";

/** Work under way on the server. */
export interface Job {
  /** Asks the server to stop; "cancelled" follows. */
  readonly cancel: () => void;
  /** How it ended: done, failed or cancelled. Never rejects. */
  readonly ended: Promise<JobEnd>;
}

export type JobEnd = Extract<JobState, { state: "done" | "failed" | "cancelled" }>;

/** How far a job is; `fraction` is null until the server says. */
export interface JobProgress {
  readonly fraction: number | null;
  readonly words: string;
}

/** Starts long work and follows it until it ends. */
export function startJob(door: ServerDoor, request: JobRequest, onProgress: (progress: JobProgress) => void): Job {
  let id: string | null = null;
  let stopped = false;
  let end!: (state: JobEnd) => void;
  const ended = new Promise<JobEnd>((resolve) => {
    end = resolve;
  });
  const stop = (job: string): void => void answered(() => door.request(apiPaths.job(job), { method: "DELETE" }));

  const follow = async (): Promise<void> => {
    const started = await answered(() => door.request(apiPaths.jobs, { method: "POST", body: request }));
    if (!started.ok) {
      end({ state: "failed", error: started.reason, remedy: "Start Spyhole, then ask again. Your work is kept." });
      return;
    }
    const given = jobStartedSchema.safeParse(started.body);
    if (!started.response.ok || !given.success) {
      const refusal = refusalIn(started.body);
      const problem = refusal?.problems?.[0];
      const remedy = problem ? `${problem.path} is ${problem.value}; expected ${problem.expected}.` : "Ask again.";
      end({ state: "failed", error: refusal?.error ?? failed(started.response), remedy });
      return;
    }
    id = given.data.id;
    if (stopped) stop(id);
    const line = door.listen(apiPaths.jobEvents(id), ["state"], {
      onEvent: (_name, data) => {
        const state = jsonIn(data) as JobState | null;
        if (state?.state === "running") onProgress({ fraction: state.fraction, words: state.words });
        if (state?.state === "done" || state?.state === "failed" || state?.state === "cancelled") {
          line.close();
          end(state);
        }
      },
      onLost: (retrying) => {
        if (retrying) return;
        line.close();
        end({ state: "failed", error: "The work was lost when Spyhole stopped.", remedy: "Ask again." });
      },
    });
  };
  void follow();
  return {
    ended,
    cancel: () => {
      stopped = true;
      if (id !== null) stop(id);
    },
  };
}

export type { JobRequest, JobResult, JobState };
