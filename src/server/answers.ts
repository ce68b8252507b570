import type { z } from "@hono/zod-openapi";

/** An answer in JSON, for the description of the API. */
export function json<Schema extends z.ZodType>(schema: Schema, description: string) {
  return { content: { "application/json": { schema } }, description };
}

/** An answer that goes on: server-sent events. */
export function eventStream(description: string) {
  return { content: { "text/event-stream": { schema: { type: "string" as const } } }, description };
}
