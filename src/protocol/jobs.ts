import type { Forecast } from "#engine/firing";
import { settingKind, type SettingRecord } from "#records";
import { z } from "zod";

/** Long work, asked for by the page or the command line. */
export const jobRequestSchema = z.discriminatedUnion("work", [
  z.object({
    work: z.literal("propose"),
    kilnId: z.string(),
    classId: z.string(),
    /** Day the firing is to start, ISO 8601. */
    day: z.iso.date(),
    /** Pieces to choose from; left out: every ready piece of the class that is in no other setting. */
    pieceIds: z.array(z.string()).optional(),
    /** Setting to start from: its fixed pieces stay, and it keeps its id and name. */
    settingId: z.string().nullable(),
    seconds: z.number().min(0.2).max(600),
    seed: z.int(),
  }),
  z.object({
    work: z.literal("forecast"),
    /** The setting as it stands on the page, saved or not. */
    setting: settingKind.schema,
    grade: z.enum(["preview", "full"]),
  }),
]);
export type JobRequest = z.infer<typeof jobRequestSchema>;

export const jobStartedSchema = z.object({ id: z.string() });
export type JobStarted = z.infer<typeof jobStartedSchema>;

/** The setting is not saved yet: the page puts it, so that undo can take it back. */
export interface ProposeResult {
  readonly work: "propose";
  readonly setting: SettingRecord;
}

export interface ForecastResult {
  readonly work: "forecast";
  readonly settingId: string;
  readonly forecast: Forecast;
  /** Hash of all that the forecast depends on. */
  readonly key: string;
}

export type JobResult = ProposeResult | ForecastResult;

/** Sent as server-sent events named "state"; the last one is done, failed or cancelled. */
export type JobState =
  | { readonly state: "waiting" }
  | { readonly state: "running"; readonly fraction: number; readonly words: string }
  | { readonly state: "done"; readonly result: JobResult }
  | { readonly state: "failed"; readonly error: string; readonly remedy: string }
  | { readonly state: "cancelled" };
