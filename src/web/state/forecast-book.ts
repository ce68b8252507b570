import type { Forecast, Grade } from "#engine/firing";
import type { SettingRecord } from "#records";
import { startJob, type Job, type JobEnd, type JobProgress } from "./jobs.ts";
import type { ServerDoor } from "./server-door.ts";

/** What is known of a setting's firing. */
export interface ForecastView {
  /** The last one computed; null before the first. */
  readonly forecast: Forecast | null;
  /** It was computed for the setting exactly as it stands. */
  readonly isCurrent: boolean;
  readonly work: (JobProgress & { readonly grade: Grade }) | null;
  readonly failure: { readonly error: string; readonly remedy: string } | null;
}

/** Forecasts by setting: what was computed, what is being computed, and for which state of the setting. */
export interface ForecastBook {
  readonly subscribe: (listener: () => void) => () => void;
  /** The same object until something changes. `inputs` is a text of all the forecast depends on. */
  readonly view: (settingId: string, inputs: string) => ForecastView;
  /** Computes one for the setting as it stands; one under way for it is stopped. */
  readonly ask: (setting: SettingRecord, inputs: string, grade: Grade) => void;
  readonly stop: (settingId: string) => void;
}

interface Page {
  /** Inputs of the forecast shown last. */
  shown: string | null;
  work: { readonly job: Job; readonly inputs: string; readonly grade: Grade; progress: JobProgress } | null;
  failure: { readonly inputs: string; readonly error: string; readonly remedy: string } | null;
  view: ForecastView | null;
  viewOf: string | null;
}

/** Forecasts kept in the page, so that undo brings back the numbers too. A full one of 60 pieces takes about 1 MB. */
const kept = 16;

export function forecastBook(door: ServerDoor): ForecastBook {
  const listeners = new Set<() => void>();
  const pages = new Map<string, Page>();
  /** By inputs; the last one asked for is at the end. */
  const known = new Map<string, Forecast>();

  function pageOf(settingId: string): Page {
    let page = pages.get(settingId);
    if (!page) {
      page = { shown: null, work: null, failure: null, view: null, viewOf: null };
      pages.set(settingId, page);
    }
    return page;
  }

  function tell(page: Page): void {
    page.view = null;
    for (const listener of listeners) listener();
  }

  function keep(inputs: string, forecast: Forecast): void {
    if (known.get(inputs)?.grade === "full" && forecast.grade === "preview") return;
    known.delete(inputs);
    known.set(inputs, forecast);
    for (const oldest of known.keys()) {
      if (known.size <= kept) break;
      known.delete(oldest);
    }
  }

  function finish(page: Page, inputs: string, end: JobEnd): void {
    page.work = null;
    if (end.state === "done" && end.result.work === "forecast") {
      keep(inputs, end.result.forecast);
      page.shown = inputs;
      page.failure = null;
    } else if (end.state === "failed") page.failure = { inputs, error: end.error, remedy: end.remedy };
    tell(page);
  }

  return {
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    view: (settingId, inputs) => {
      const page = pageOf(settingId);
      if (page.view && page.viewOf === inputs) return page.view;
      if (known.has(inputs)) page.shown = inputs;
      page.viewOf = inputs;
      page.view = {
        forecast: (page.shown === null ? null : known.get(page.shown)) ?? null,
        isCurrent: known.has(inputs),
        work: page.work && { ...page.work.progress, grade: page.work.grade },
        failure: page.failure?.inputs === inputs ? page.failure : null,
      };
      return page.view;
    },
    ask: (setting, inputs, grade) => {
      const page = pageOf(setting.id);
      const ready = known.get(inputs);
      if (ready && (grade === "preview" || ready.grade === "full")) return;
      if (page.work?.inputs === inputs && page.work.grade === grade) return;
      page.work?.job.cancel();
      page.failure = null;
      const job = startJob(door, { work: "forecast", setting, grade }, (progress) => {
        if (page.work?.job !== job) return;
        page.work.progress = progress;
        tell(page);
      });
      page.work = { job, inputs, grade, progress: { fraction: null, words: "Waiting to start" } };
      void job.ended.then((end) => {
        if (page.work?.job === job) finish(page, inputs, end);
        else if (end.state === "done" && end.result.work === "forecast") keep(inputs, end.result.forecast);
      });
      tell(page);
    },
    stop: (settingId) => {
      const page = pageOf(settingId);
      page.work?.job.cancel();
      page.work = null;
      tell(page);
    },
  };
}
