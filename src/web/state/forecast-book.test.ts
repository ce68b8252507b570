/// <reference types="node" />
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { Forecast } from "#engine/firing";
import type { SettingRecord } from "#records";
import { eventsOverFetch } from "../../../tests/events-over-fetch.ts";
import { FakeStudioServer } from "../../../tests/fake-studio-server.ts";
import { forecastBook, type ForecastBook, type ForecastView } from "./forecast-book.ts";
import { startJob, type JobProgress } from "./jobs.ts";
import { serverDoor, type ServerDoor } from "./server-door.ts";

let server: FakeStudioServer;
let door: ServerDoor;
let book: ForecastBook;

const setting = { id: "alder-a", name: "A" } as SettingRecord;
/** Only what the book looks at. */
const forecastOf = (grade: "preview" | "full", mark: number): Forecast => ({ grade, seed: mark }) as Forecast;
const done = (grade: "preview" | "full", mark: number): unknown => ({
  state: "done",
  result: { work: "forecast", settingId: setting.id, forecast: forecastOf(grade, mark), key: "k" },
});

async function until(wish: () => boolean): Promise<void> {
  const began = performance.now();
  while (!wish()) {
    if (performance.now() - began > 3000) throw new Error("never came");
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

const view = (inputs: string): ForecastView => book.view(setting.id, inputs);
const jobs = (): readonly string[] => [...server.jobs.keys()];

beforeEach(async () => {
  server = new FakeStudioServer({ id: "studio" }, []);
  const origin = await server.start();
  door = serverDoor({ origin, fetch, listen: eventsOverFetch(() => origin) });
  book = forecastBook(door);
});

afterEach(async () => {
  await server.stop();
});

describe("a job", () => {
  const ask = (onProgress: (progress: JobProgress) => void) =>
    startJob(door, { work: "forecast", setting, grade: "preview" }, onProgress);

  test("tells its progress and how it ended", async () => {
    const seen: JobProgress[] = [];
    const job = ask((progress) => seen.push(progress));
    await until(() => jobs().length === 1);
    await new Promise((resolve) => setTimeout(resolve, 50));
    server.tellJob("job-1", { state: "running", fraction: 0.4, words: "tracing rays" });
    await until(() => seen.length === 1);
    server.tellJob("job-1", done("preview", 1));
    expect((await job.ended).state).toBe("done");
    expect(seen).toEqual([{ fraction: 0.4, words: "tracing rays" }]);
  });

  test("stopped before the server knows it, it is stopped then", async () => {
    const job = ask(() => {});
    job.cancel();
    expect((await job.ended).state).toBe("cancelled");
  });

  test("a server that is off fails it with a remedy; a server that dies meanwhile too", async () => {
    server.mishap = "down";
    const off = await ask(() => {}).ended;
    expect(off.state === "failed" && off.remedy).toMatch(/Start Spyhole/);
    server.mishap = null;
    const job = ask(() => {});
    await until(() => jobs().length === 1);
    await new Promise((resolve) => setTimeout(resolve, 50));
    server.dropLines();
    const end = await job.ended;
    expect(end.state === "failed" && end.error).toMatch(/lost when Spyhole stopped/);
  });
});

describe("the book", () => {
  test("old numbers stay while new ones are computed, and are said to be old", async () => {
    book.ask(setting, "one", "preview");
    expect(view("one").work?.grade).toBe("preview");
    await until(() => jobs().length === 1);
    server.tellJob("job-1", done("preview", 1));
    await until(() => view("one").forecast !== null);
    expect(view("one")).toMatchObject({ isCurrent: true, work: null });
    // Something was moved.
    expect(view("two")).toMatchObject({ isCurrent: false, forecast: { seed: 1 } });
    book.ask(setting, "two", "preview");
    expect(view("two")).toMatchObject({ isCurrent: false, forecast: { seed: 1 }, work: { grade: "preview" } });
    await until(() => jobs().length === 2);
    server.tellJob("job-2", done("preview", 2));
    await until(() => view("two").isCurrent);
    expect(view("two").forecast?.seed).toBe(2);
    // Undo brings back the numbers of before, without asking.
    expect(view("one")).toMatchObject({ isCurrent: true, forecast: { seed: 1 } });
    expect(jobs()).toHaveLength(2);
  });

  test("a full forecast is not replaced by a quick one of the same state", async () => {
    book.ask(setting, "one", "full");
    await until(() => jobs().length === 1);
    server.tellJob("job-1", done("full", 1));
    await until(() => view("one").isCurrent);
    book.ask(setting, "one", "preview");
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(jobs()).toHaveLength(1);
    expect(view("one").forecast?.grade).toBe("full");
  });

  test("asking anew stops what is under way; its late end does not show", async () => {
    book.ask(setting, "one", "preview");
    await until(() => jobs().length === 1);
    await new Promise((resolve) => setTimeout(resolve, 50));
    book.ask(setting, "two", "preview");
    await until(() => jobs().length === 2);
    await until(() => JSON.stringify(server.jobs.get("job-1")?.last) === '{"state":"cancelled"}');
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(view("two").work).not.toBeNull();
    server.tellJob("job-2", done("preview", 2));
    await until(() => view("two").isCurrent);
    expect(view("two").failure).toBeNull();
  });

  test("a quick one that comes late does not take the place of the full one", async () => {
    server.ignoresStops = true;
    book.ask(setting, "one", "preview");
    await until(() => jobs().length === 1);
    await new Promise((resolve) => setTimeout(resolve, 50));
    book.ask(setting, "one", "full");
    await until(() => jobs().length === 2);
    await new Promise((resolve) => setTimeout(resolve, 50));
    server.tellJob("job-2", done("full", 2));
    await until(() => view("one").isCurrent);
    server.tellJob("job-1", done("preview", 1));
    await new Promise((resolve) => setTimeout(resolve, 50));
    // Looked at anew, after another state was shown.
    view("two");
    expect(view("one").forecast).toMatchObject({ grade: "full", seed: 2 });
  });

  test("a failure is shown for the state it belongs to, and goes with the next change", async () => {
    book.ask(setting, "one", "preview");
    await until(() => jobs().length === 1);
    server.tellJob("job-1", { state: "failed", error: "It cannot get so hot.", remedy: "Take another schedule." });
    await until(() => view("one").failure !== null);
    expect(view("one").failure).toMatchObject({ error: "It cannot get so hot.", remedy: "Take another schedule." });
    expect(view("two").failure).toBeNull();
  });

  test("the view is the same object until something changes, as React needs", async () => {
    book.ask(setting, "one", "preview");
    expect(view("one")).toBe(view("one"));
    await until(() => jobs().length === 1);
    await new Promise((resolve) => setTimeout(resolve, 50));
    const before = view("one");
    server.tellJob("job-1", { state: "running", fraction: 0.5, words: "half way" });
    await until(() => view("one") !== before);
    expect(view("one").work).toMatchObject({ fraction: 0.5 });
  });
});
