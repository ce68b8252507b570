import { hashOf } from "#jobs";
import { loadersSheet, pdfOf, sheetOf } from "#print";
import { refusalSchema, type ForecastResult } from "#protocol";
import type { SettingRecord, StudioDocument } from "#records";
import { check, forecastKey } from "#work";
import { createRoute, z, type OpenAPIHono } from "@hono/zod-openapi";
import { json } from "./answers.ts";
import type { Env, Services } from "./context.ts";
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
  /** The best forecast that is known for the setting as it stands. */
  async function knownForecast(document: StudioDocument, setting: SettingRecord) {
    for (const grade of ["full", "preview"] as const) {
      const kept = await store.cached(forecastKey(document, setting, grade, hashOf));
      if (kept !== null) return (JSON.parse(kept) as ForecastResult).forecast;
    }
    return null;
  }

  app.openapi(sheet, async (call) => {
    const stored = await store.read();
    const setting = stored?.document.settings.find((each) => each.id === call.req.valid("param").id);
    if (!stored || !setting) return refuse(call, 404, "This setting is not saved. Save it, then print.");
    const { document } = stored;
    const { paper, plans } = call.req.valid("query");
    const input = sheetOf(document, setting, {
      forecast: await knownForecast(document, setting),
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
