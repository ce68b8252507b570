import { hashOf, isEnd, type Task } from "#jobs";
import { apiPaths, jobRequestSchema, jobStartedSchema, refusalSchema, type JobResult } from "#protocol";
import { faultOf, forecastKey } from "#work";
import { createRoute, z, type OpenAPIHono } from "@hono/zod-openapi";
import { streamSSE } from "hono/streaming";
import type { Call, Env, Services } from "./context.ts";
import { eventStream, json } from "./answers.ts";
import { refuse } from "./refusals.ts";

const params = z.object({ id: z.string() });
const stateSchema = z
  .looseObject({ state: z.enum(["waiting", "running", "done", "failed", "cancelled"]) })
  .describe("JobState: fraction and words while running, result when done, error and remedy when failed");

const routes = {
  start: createRoute({
    method: "post",
    path: apiPaths.jobs,
    summary: "Start long work",
    request: { body: { required: true, content: { "application/json": { schema: jobRequestSchema } } } },
    responses: {
      202: json(jobStartedSchema, "Started, or waiting in line"),
      404: json(refusalSchema, "No studio yet"),
      422: json(refusalSchema, "The request is not valid"),
    },
  }),
  state: createRoute({
    method: "get",
    path: "/api/jobs/{id}",
    summary: "How far a job is",
    request: { params },
    responses: { 200: json(stateSchema, "Its state"), 404: json(refusalSchema, "No such job") },
  }),
  events: createRoute({
    method: "get",
    path: "/api/jobs/{id}/events",
    summary: "The state of a job now and after every change, until it ends",
    request: { params },
    responses: { 200: eventStream('Events named "state" with a JobState'), 404: json(refusalSchema, "No such job") },
  }),
  stop: createRoute({
    method: "delete",
    path: "/api/jobs/{id}",
    summary: "Stop a job; it ends as cancelled soon after",
    request: { params },
    responses: { 204: { description: "Asked to stop" }, 404: json(refusalSchema, "No such job") },
  }),
};

export function addJobRoutes(app: OpenAPIHono<Env>, { store, jobs }: Services): void {
  const unknown = (call: Call): never =>
    refuse(call, 404, "This job is not known any more. Ask for it again.") as never;

  /** Keeps what a job finds, so that the same question is answered at once. */
  function keepWhenDone(id: string, key: string): void {
    const stop = jobs.watch(id, (state) => {
      if (!isEnd(state)) return;
      stop?.();
      // A full disk must not take the answer away: it is only not kept.
      if (state.state === "done") store.keep(key, JSON.stringify(state.result)).catch(console.error);
    });
  }

  app.openapi(routes.start, async (call) => {
    const request = call.req.valid("json");
    const stored = await store.read();
    if (!stored) return refuse(call, 404, "There is no studio in this store yet. Import one.") as never;
    const task = { request, document: stored.document };
    const key = cacheKey(task);
    const known = key === null ? null : await store.cached(key);
    const id = jobs.start(task, known === null ? undefined : (JSON.parse(known) as JobResult));
    if (key !== null && known === null) keepWhenDone(id, key);
    return call.json({ id }, 202);
  });

  app.openapi(routes.state, (call) => {
    const state = jobs.state(call.req.valid("param").id);
    return state ? call.json(state as never, 200) : unknown(call);
  });

  app.openapi(routes.stop, (call) => (jobs.cancel(call.req.valid("param").id) ? call.body(null, 204) : unknown(call)));

  app.openapi(routes.events, (call): never => {
    const { id } = call.req.valid("param");
    if (!jobs.state(id)) return unknown(call);
    return streamSSE(call, async (stream) => {
      // Written one after another: an end must not overtake what came before it.
      let written = Promise.resolve();
      await new Promise<void>((resolve) => {
        stream.onAbort(resolve);
        const stop = jobs.watch(id, (state) => {
          written = written.then(() => stream.writeSSE({ event: "state", data: JSON.stringify(state) }));
          if (isEnd(state)) void written.then(resolve, resolve);
        });
        stream.onAbort(() => stop?.());
      });
    }) as never;
  });
}

/** Under which key the result of a task is kept; null for work that is done anew each time. */
function cacheKey({ request, document }: Task): string | null {
  if (request.work !== "forecast" || faultOf(document, request.setting)) return null;
  return forecastKey(document, request.setting, request.grade, hashOf);
}
