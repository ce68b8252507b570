import { loadersSheet, pdfOf, sheetOf } from "#print";
import { refusalSchema } from "#protocol";
import { check } from "#work";
import { createRoute, z, type OpenAPIHono } from "@hono/zod-openapi";
import { json } from "./answers.ts";
import type { Env, Services } from "./context.ts";
import { knownForecast } from "./known-forecast.ts";
import { refuse } from "./refusals.ts";

const sheet = createRoute({
  method: "get",
  path: "/api/settings/{id}/sheet.pdf",
  summary: "The loader's sheet of a saved setting, with its forecast where one is known",
  request: {
    params: z.object({ id: z.string() }),
    query: z.object({ paper: z.enum(["a4", "letter"]).optional(), plans: z.enum(["usual", "large"]).optional() }),
  },
  responses: {
    200: {
      content: { "application/pdf": { schema: { type: "string" as const, format: "binary" } } },
      description: "The sheet",
    },
    404: json(refusalSchema, "No such setting"),
    422: json(refusalSchema, "No such paper"),
  },
});

export function addSheetRoutes(app: OpenAPIHono<Env>, { store }: Services): void {
  app.openapi(sheet, async (call) => {
    const stored = await store.read();
    const setting = stored?.document.settings.find((each) => each.id === call.req.valid("param").id);
    if (!stored || !setting) return refuse(call, 404, "This setting is not saved. Save it, then print.");
    const { document } = stored;
    const { paper, plans } = call.req.valid("query");
    const input = sheetOf(document, setting, {
      forecast: await knownForecast(store, document, setting),
      stops: check(document, setting).findings.filter((each) => each.level === "stop").length,
      ...(paper ? { paper } : {}),
      ...(plans ? { plans } : {}),
    });
    const info = { title: `Loader’s sheet ${setting.name}`, created: new Date() };
    const pdf = await pdfOf(loadersSheet(input), input.paper, info);
    return call.body(Uint8Array.from(pdf), 200, {
      "Content-Type": "application/pdf",
      "Content-Disposition": `inline; filename="sheet-${setting.id}.pdf"`,
    }) as never;
  });
}
