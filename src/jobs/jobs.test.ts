import { demoStudio } from "#work";
import type { JobRequest, JobState } from "#protocol";
import type { SettingRecord } from "#records";
import { writeFileSync } from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { bundleForNode } from "../../tools/bundle.mjs";
import { jobBoard } from "./board.ts";
import { inlineRunner } from "./inline.ts";
import { isEnd, type JobRunner } from "./runner.ts";
import { threadClock } from "./thread-clock.ts";
import { threadRunner } from "./threads.ts";

const document = demoStudio("2026-03-02", 1);
const proposing: JobRequest = {
  work: "propose",
  kilnId: "rowan",
  classId: "mid-6",
  day: "2026-03-02",
  settingId: null,
  seconds: 0.5,
  seed: 1,
};

const folder = path.resolve("node_modules/.cache/spyhole-tests/jobs");
const workerAt = (name: string): URL => pathToFileURL(path.join(folder, name));
beforeAll(() => bundleForNode(folder));

async function run(runner: JobRunner, request: JobRequest): Promise<readonly JobState[]> {
  const states: JobState[] = [];
  await runner.start({ request, document }, (state) => states.push(state)).ended;
  return states;
}

const runners = [
  { name: "here", make: () => inlineRunner() },
  { name: "in threads", make: () => threadRunner({ entry: workerAt("worker.js"), size: 1 }) },
];

describe.each(runners)("work run $name", ({ make }) => {
  let runner: JobRunner;
  beforeAll(() => void (runner = make()));
  afterAll(() => runner.close());

  test("proposes a setting, and tells waiting, running and done in that order", async () => {
    const states = await run(runner, proposing);
    expect(states[0]).toEqual({ state: "waiting" });
    expect(states.at(-1)).toMatchObject({ state: "done", result: { work: "propose", setting: { kilnId: "rowan" } } });
    expect(states.slice(1, -1).every((each) => each.state === "running")).toBe(true);
  });

  test("says in plain words why it cannot", async () => {
    const [end] = (await run(runner, { ...proposing, classId: "no-such" })).slice(-1);
    expect(end).toMatchObject({
      state: "failed",
      error: 'There is no firing class "no-such" in this studio.',
      remedy: "Choose one of: glaze-06, bisque-04, mid-6.",
    });
  });

  test("refuses a setting that does not belong to the studio, naming the place", async () => {
    const setting = { ...(await proposed(runner)), scheduleId: "gone" };
    const [end] = (await run(runner, { work: "forecast", setting, grade: "preview" })).slice(-1);
    expect(end).toMatchObject({ state: "failed", error: expect.stringContaining('scheduleId is "gone"') as string });
  });

  test("computes a firing, the same one each time", async () => {
    const setting = await proposed(runner);
    const ends = [
      (await run(runner, { work: "forecast", setting, grade: "preview" })).at(-1)!,
      (await run(runner, { work: "forecast", setting, grade: "preview" })).at(-1)!,
    ];
    expect(ends[0]).toMatchObject({ state: "done", result: { work: "forecast", settingId: setting.id } });
    expect(JSON.stringify(ends[0])).toBe(JSON.stringify(ends[1]));
  });
});

async function proposed(runner: JobRunner): Promise<SettingRecord> {
  const end = (await run(runner, proposing)).at(-1)!;
  if (end.state !== "done" || end.result.work !== "propose") throw new Error(JSON.stringify(end));
  return end.result.setting;
}

describe("threads", () => {
  const started = async (runner: JobRunner, request: JobRequest = { ...proposing, kilnId: "alder", seconds: 60 }) => {
    const states: JobState[] = [];
    let running!: () => void;
    const runs = new Promise<void>((resolve) => (running = resolve));
    const job = runner.start({ request, document }, (state) => {
      states.push(state);
      if (state.state === "running") running();
    });
    await runs;
    return { job, states };
  };

  test("stop when asked, soon, and go on with the next", async () => {
    const runner = threadRunner({ entry: workerAt("worker.js"), size: 1 });
    const { job, states } = await started(runner);
    const waiting = runner.start({ request: proposing, document }, () => {});
    const began = performance.now();
    job.cancel();
    expect(await job.ended).toEqual({ state: "cancelled" });
    expect(performance.now() - began).toBeLessThan(3000);
    expect(states.at(-1)).toEqual({ state: "cancelled" });
    expect((await waiting.ended).state).toBe("done");
    await runner.close();
  });

  test("a job that waits in line is cancelled without a thread", async () => {
    const runner = threadRunner({ entry: workerAt("worker.js"), size: 1 });
    const { job } = await started(runner);
    const waiting = runner.start({ request: proposing, document }, () => {});
    waiting.cancel();
    expect(await waiting.ended).toEqual({ state: "cancelled" });
    job.cancel();
    await job.ended;
    await runner.close();
  });

  test("a loop that does not listen is ended with its thread", async () => {
    writeFileSync(path.join(folder, "deaf.mjs"), loopOf("for (;;) {}"));
    const runner = threadRunner({ entry: workerAt("deaf.mjs"), size: 1, patience: 100 });
    const { job } = await started(runner);
    job.cancel();
    expect(await job.ended).toEqual({ state: "cancelled" });
    await runner.close();
  });

  test.each([
    ["throws", "throw new Error('the coil came loose');", /the coil came loose/],
    ["leaves", "process.exit(3);", /ended without an answer/],
  ])("a thread that %s takes only its own job with it", async (_, does, reason) => {
    writeFileSync(path.join(folder, "faulty.mjs"), loopOf(does));
    const runner = threadRunner({ entry: workerAt("faulty.mjs"), size: 1 });
    for (const _again of [1, 2]) {
      const end = await runner.start({ request: proposing, document }, () => {}).ended;
      expect(end).toMatchObject({ state: "failed", error: expect.stringMatching(reason) as string });
      expect(end.state === "failed" && end.remedy).toMatch(/studio is unchanged/);
    }
    await runner.close();
  });

  test("closing ends everything as cancelled", async () => {
    const runner = threadRunner({ entry: workerAt("worker.js"), size: 1 });
    const { job } = await started(runner);
    const waiting = runner.start({ request: proposing, document }, () => {});
    await runner.close();
    expect([await job.ended, await waiting.ended]).toEqual([{ state: "cancelled" }, { state: "cancelled" }]);
  });
});

const loopOf = (does: string): string =>
  `import { parentPort } from "node:worker_threads"; parentPort.on("message", () => { ${does} });`;

describe("the board of jobs", () => {
  test("tells listeners the present state at once and the end once; forgets old jobs", async () => {
    const board = jobBoard(inlineRunner());
    const id = board.start({ request: proposing, document });
    const heard: JobState[] = [];
    await new Promise<void>((resolve) => {
      board.watch(id, (state) => {
        heard.push(state);
        if (isEnd(state)) resolve();
      });
    });
    expect(heard.filter(isEnd)).toHaveLength(1);
    expect(board.state(id)).toEqual(heard.at(-1));
    const known = { work: "propose", setting: await proposed(inlineRunner()) } as const;
    for (let i = 0; i < 50; i += 1) board.start({ request: proposing, document }, known);
    expect(board.state(id)).toBeNull();
    expect(board.watch(id, () => {})).toBeNull();
    expect(board.cancel("no-such")).toBe(false);
    await board.close();
  });
});

test("the clock of a thread counts work, not waiting (Linux), and never runs backwards", async () => {
  const clock = threadClock();
  const before = clock();
  await new Promise((resolve) => setTimeout(resolve, 300));
  if (process.platform === "linux") expect(clock() - before).toBeLessThan(0.15);
  let last = clock();
  const began = performance.now();
  // A busy machine may give this thread little time: work until it has had some.
  while (last - before < 0.05 && performance.now() - began < 20_000) {
    const now = clock();
    expect(now).toBeGreaterThanOrEqual(last);
    last = now;
  }
  expect(last - before).toBeGreaterThanOrEqual(0.05);
});
