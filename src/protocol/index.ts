export {
  jobRequestSchema,
  jobStartedSchema,
  type ForecastResult,
  type JobRequest,
  type JobResult,
  type JobStarted,
  type JobState,
  type ProposeResult,
} from "./jobs.ts";
export { apiPaths } from "./paths.ts";
export {
  changeSchema,
  changesDoneSchema,
  changesRequestSchema,
  conflictSchema,
  refusalSchema,
  settingSchema,
  studioChangedSchema,
  studioSchema,
  studioStateSchema,
  type Change,
  type ChangesDone,
  type ChangesRequest,
  type Conflict,
  type Refusal,
  type StudioChanged,
  type StudioState,
} from "./studio-changes.ts";
