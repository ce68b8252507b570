import { firingCalendar, planCsv, planOf, settingGlb, shelfSvg, type Plan } from "#export";
import { refusalSchema } from "#protocol";
import { createRoute, z, type OpenAPIHono } from "@hono/zod-openapi";
import { json } from "./answers.ts";
import type { Env, Services } from "./context.ts";
import { knownForecast } from "./known-forecast.ts";
import { refuse } from "./refusals.ts";

/** A file in an answer, for the description of the API. */
const file = (type: string, description: string, binary = false) => ({
  content: { [type]: { schema: { type: "string" as const, ...(binary ? { format: "binary" } : {}) } } },
  description,
});
const params = z.object({ id: z.string() });
const missing = json(refusalSchema, "No such setting, or no forecast of it as it stands");

const routes = {
  table: createRoute({
    method: "get",
    path: "/api/settings/{id}/plan.csv",
    summary: "The plan of a saved setting as a table, one line a piece",
    request: { params },
    responses: { 200: file("text/csv", "The table"), 404: missing },
  }),
  shelf: createRoute({
    method: "get",
    path: "/api/settings/{id}/shelf.svg",
    summary: "One shelf of a saved setting from above, in real size",
    request: { params, query: z.object({ shelf: z.coerce.number().int().min(1) }) },
    responses: {
      200: file("image/svg+xml", "The drawing"),
      404: missing,
      422: json(refusalSchema, "The number of the shelf is none"),
    },
  }),
  model: createRoute({
    method: "get",
    path: "/api/settings/{id}/setting.glb",
    summary: "A saved setting as a model in space (binary glTF 2.0), coloured by its forecast where one is known",
    request: { params },
    responses: { 200: file("model/gltf-binary", "The model", true), 404: missing },
  }),
  calendar: createRoute({
    method: "get",
    path: "/api/settings/{id}/firing.ics",
    summary: "The firing of a saved setting as calendar entries: heating, its end, and when it can be opened",
    request: { params },
    responses: { 200: file("text/calendar", "The entries"), 404: missing },
  }),
};

/** Files to take away: each is a download named after the setting. */
export function addExportRoutes(app: OpenAPIHono<Env>, { store }: Services): void {
  async function planAsked(id: string): Promise<Plan | null> {
    const stored = await store.read();
    const setting = stored?.document.settings.find((each) => each.id === id);
    if (!stored || !setting) return null;
    return planOf(stored.document, setting, await knownForecast(store, stored.document, setting));
  }
  const notSaved = "This setting is not saved. Save it, then take it away.";
  const named = (type: string, name: string) => ({
    "Content-Type": type,
    "Content-Disposition": `attachment; filename="${name}"`,
  });

  app.openapi(routes.table, async (call) => {
    const plan = await planAsked(call.req.valid("param").id);
    if (!plan) return refuse(call, 404, notSaved);
    // The mark at the start tells table programs that the text is UTF-8.
    const text = `\ufeff${planCsv(plan)}`;
    return call.body(
      text,
      200,
      named("text/csv; charset=utf-8; header=present", `plan-${plan.settingId}.csv`),
    ) as never;
  });

  app.openapi(routes.shelf, async (call) => {
    const plan = await planAsked(call.req.valid("param").id);
    if (!plan) return refuse(call, 404, notSaved);
    const { shelf } = call.req.valid("query");
    const svg = shelfSvg(plan, shelf);
    if (svg === null) return refuse(call, 404, `There is no shelf ${shelf} in setting ${plan.settingName}.`);
    return call.body(svg, 200, named("image/svg+xml", `${plan.settingId}-shelf-${shelf}.svg`)) as never;
  });

  app.openapi(routes.model, async (call) => {
    const plan = await planAsked(call.req.valid("param").id);
    if (!plan) return refuse(call, 404, notSaved);
    return call.body(settingGlb(plan), 200, named("model/gltf-binary", `${plan.settingId}.glb`)) as never;
  });

  app.openapi(routes.calendar, async (call) => {
    const plan = await planAsked(call.req.valid("param").id);
    if (!plan) return refuse(call, 404, notSaved);
    const text = firingCalendar(plan, Date.now() / 1000);
    if (text === null) {
      return refuse(
        call,
        404,
        "Nobody knows yet when this firing ends. Ask for a forecast, then take the calendar entry.",
      );
    }
    return call.body(text, 200, named("text/calendar; charset=utf-8", `${plan.settingId}.ics`)) as never;
  });
}
