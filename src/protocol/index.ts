export {
  jobRequestSchema,
  type ForecastResult,
  type JobRequest,
  type JobResult,
  type JobState,
  type ProposeResult,
} from "./jobs.ts";
export {
  changeSchema,
  changesDoneSchema,
  changesRequestSchema,
  conflictSchema,
  refusalSchema,
  settingSchema,
  studioSchema,
  studioStateSchema,
  type Change,
  type ChangesDone,
  type ChangesRequest,
  type Conflict,
  type Refusal,
  type StudioState,
} from "./studio-changes.ts";
