export { jobBoard, type JobBoard } from "./board.ts";
export { hashOf } from "./hash.ts";
export { inlineRunner } from "./inline.ts";
export { isEnd, type JobEnd, type JobRunner, type RunningJob, type Task } from "./runner.ts";
export { threadRunner, type ThreadOptions } from "./threads.ts";
