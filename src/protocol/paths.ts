/** Addresses of the API; all but the event streams and the sheet answer JSON. */
export const apiPaths = {
  health: "/api/health",
  /** GET: `StudioState`. */
  studio: "/api/studio",
  /** POST `ChangesRequest`: `ChangesDone`, or a `Refusal` with 409 (someone was faster) or 422 (not valid). */
  changes: "/api/changes",
  /** Server-sent events named "changed", each a `StudioChanged`, whoever made the change; the first comes at once. */
  changeEvents: "/api/changes/events",
  /** GET: the studio document as a file. */
  export: "/api/export",
  /** POST a studio document: `StudioState`. Replaces everything. */
  import: "/api/import",
  /** POST `JobRequest`: `JobStarted`. */
  jobs: "/api/jobs",
  /** GET: `JobState`. DELETE: stops it. */
  job: (id: string) => `/api/jobs/${id}`,
  /** Server-sent events named "state", each a `JobState`; the stream ends with done, failed or cancelled. */
  jobEvents: (id: string) => `/api/jobs/${id}/events`,
  /** The loader's sheet of a saved setting, as PDF. */
  sheet: (settingId: string, paper: "a4" | "letter") => `/api/settings/${settingId}/sheet.pdf?paper=${paper}`,
  /** Files of a saved setting to take away: a table, a shelf's drawing, a model in space, calendar entries. */
  planTable: (settingId: string) => `/api/settings/${settingId}/plan.csv`,
  shelfDrawing: (settingId: string, shelfNumber: number) => `/api/settings/${settingId}/shelf.svg?shelf=${shelfNumber}`,
  settingModel: (settingId: string) => `/api/settings/${settingId}/setting.glb`,
  firingCalendar: (settingId: string) => `/api/settings/${settingId}/firing.ics`,
  openApi: "/api/openapi.json",
} as const;
