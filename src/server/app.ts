import { apiPaths } from "#protocol";
import { shortened, type Problem } from "#records";
import { createRoute, OpenAPIHono, z } from "@hono/zod-openapi";
import { bodyLimit } from "hono/body-limit";
import { json } from "./answers.ts";
import type { Env, Services } from "./context.ts";
import { addExportRoutes } from "./export-routes.ts";
import { guard, pageHeaders } from "./guard.ts";
import { addJobRoutes } from "./job-routes.ts";
import { refuse, refuseThrown } from "./refusals.ts";
import { pageAt, staticFiles } from "./static-files.ts";
import { addSheetRoutes } from "./sheet-routes.ts";
import { addStudioRoutes } from "./studio-routes.ts";

/** Largest request taken [bytes]: a studio of several thousand pieces is about 3 MB. */
const largestBody = 32 * 1024 * 1024;

const health = createRoute({
  method: "get",
  path: apiPaths.health,
  summary: "Whether Spyhole answers",
  responses: { 200: json(z.object({ ok: z.boolean() }), "It does") },
});

/** The API and the page as one Hono app. */
export function buildApp(services: Services, webFolder: string): OpenAPIHono<Env> {
  const app = new OpenAPIHono<Env>({
    defaultHook: async (result, call) => {
      if (result.success) return;
      const sent: unknown = result.target === "json" ? await call.req.json().catch(() => undefined) : {};
      const problems = result.error.issues.slice(0, 100).map((issue) => problemAt(sent, issue.path, issue.message));
      return refuse(call, 422, "The request is not valid. Nothing was changed.", { problems });
    },
  });
  app.onError(refuseThrown);
  app.use(pageHeaders);
  app.use(guard);
  app.use(
    bodyLimit({
      maxSize: largestBody,
      onError: (call) => refuse(call, 413, "That is more than Spyhole takes in one go: 32 MB at most."),
    }),
  );
  app.openapi(health, (call) => call.json({ ok: true }, 200));
  addStudioRoutes(app, services);
  addJobRoutes(app, services);
  addSheetRoutes(app, services);
  addExportRoutes(app, services);
  app.doc31(apiPaths.openApi, {
    openapi: "3.1.0",
    info: {
      title: "Spyhole",
      version: "1",
      description: "All quantities in SI. Answers to requests that were refused are `Refusal`s and changed nothing.",
      license: { name: "Apache-2.0" },
    },
  });
  app.all("/api/*", (call) => refuse(call, 404, "There is no such place here. See /api/openapi.json."));
  app.get("*", staticFiles(webFolder));
  app.get("*", async (call) => {
    if (/\.[a-z0-9]{1,5}$/i.test(call.req.path)) return call.text("Not here.\n", 404);
    return pageAt(call, webFolder);
  });
  return app;
}

/** What is wrong in a request, with the place as a path and the value that stands there. */
function problemAt(sent: unknown, steps: readonly PropertyKey[], expected: string): Problem {
  let value = sent;
  for (const step of steps) {
    value = typeof value === "object" && value !== null ? (value as Record<PropertyKey, unknown>)[step] : undefined;
  }
  const path = steps.map((step) => (typeof step === "number" ? `[${step}]` : `.${String(step)}`)).join("");
  return { path: path.replace(/^\./, ""), value: shortened(value), expected };
}
