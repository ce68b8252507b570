import {
  apiPaths,
  changesDoneSchema,
  changesRequestSchema,
  refusalSchema,
  studioStateSchema,
  type StudioState,
} from "#protocol";
import { readStudio, studioDocumentSchema } from "#records";
import type { StoredStudio } from "#store";
import { createRoute, z, type OpenAPIHono } from "@hono/zod-openapi";
import { streamSSE } from "hono/streaming";
import type { Env, Services } from "./context.ts";
import { eventStream, json } from "./answers.ts";
import { refuse } from "./refusals.ts";

const routes = {
  studio: createRoute({
    method: "get",
    path: apiPaths.studio,
    summary: "The whole studio and the revision of every record",
    responses: { 200: json(studioStateSchema, "The studio"), 404: json(refusalSchema, "No studio yet") },
  }),
  changes: createRoute({
    method: "post",
    path: apiPaths.changes,
    summary: "Take over changes that belong together, all or none",
    request: { body: { required: true, content: { "application/json": { schema: changesRequestSchema } } } },
    responses: {
      200: json(changesDoneSchema, "All changes are saved"),
      409: json(refusalSchema, "Someone changed a record meanwhile: both versions are named, nothing was saved"),
      422: json(refusalSchema, "The studio would not be valid: places and remedies are named, nothing was saved"),
    },
  }),
  import: createRoute({
    method: "post",
    path: apiPaths.import,
    summary: "Replace the whole studio by a document",
    request: { body: { required: true, content: { "application/json": { schema: z.looseObject({}) } } } },
    responses: {
      200: json(studioStateSchema, "The studio as it is now"),
      422: json(refusalSchema, "The document is not valid: places and remedies are named, nothing changed"),
    },
  }),
  changeEvents: createRoute({
    method: "get",
    path: apiPaths.changeEvents,
    summary: "The studio's revision now and after every change, whoever made it",
    responses: { 200: eventStream('Events named "changed" with {revision}') },
  }),
  export: createRoute({
    method: "get",
    path: apiPaths.export,
    summary: "The studio as one document, for import elsewhere",
    responses: { 200: json(studioDocumentSchema, "The document"), 404: json(refusalSchema, "No studio yet") },
  }),
};

export function addStudioRoutes(app: OpenAPIHono<Env>, { store, feed }: Services): void {
  app.openapi(routes.studio, async (call) => {
    const stored = await store.read();
    if (!stored) return refuse(call, 404, "There is no studio in this store yet. Import one.") as never;
    return call.json(stateOf(stored), 200);
  });

  app.openapi(routes.changes, async (call) => {
    const { changes } = call.req.valid("json");
    const applied = await store.apply(changes);
    if (applied.ok) {
      feed.changed(applied.value.revision);
      return call.json(applied.value as never, 200);
    }
    if (applied.failure.reason === "conflict") {
      const conflicts = applied.failure.conflicts.map((each) => ({ ...each, current: each.current as never }));
      return refuse(call, 409, "Someone else has changed this meanwhile. Nothing was saved.", { conflicts }) as never;
    }
    const problems = applied.failure.problems.map((each) => each);
    return refuse(call, 422, "This cannot be saved as it stands. Nothing was saved.", { problems }) as never;
  });

  app.openapi(routes.import, async (call) => {
    const read = readStudio(await call.req.json());
    if (!read.ok) {
      const problems = read.failure.slice(0, 100);
      return refuse(call, 422, "This is not a studio document. Nothing was changed.", { problems }) as never;
    }
    const stored = await store.replace(read.value);
    feed.changed(stored.revision);
    return call.json(stateOf(stored), 200);
  });

  app.openapi(routes.export, async (call) => {
    const stored = await store.read();
    if (!stored) return refuse(call, 404, "There is no studio in this store yet. Import one.") as never;
    call.header("Content-Disposition", 'attachment; filename="studio.json"');
    return call.body(`${JSON.stringify(stored.document, null, 2)}\n`, 200, {
      "Content-Type": "application/json",
    }) as never;
  });

  app.openapi(
    routes.changeEvents,
    (call): never =>
      streamSSE(call, async (stream) => {
        const stop = feed.listen((revision) => {
          void stream.writeSSE({ event: "changed", data: JSON.stringify({ revision }) });
        });
        await new Promise<void>((resolve) => stream.onAbort(resolve));
        stop();
      }) as never,
  );
}

function stateOf(stored: StoredStudio): StudioState {
  return stored as StudioState;
}
