import type { Forecast } from "#engine/firing";
import { loadersSheet, pdfOf, sheetOf, type Paper } from "#print";
import type { SettingRecord, StudioDocument } from "#records";
import { check } from "#work";
import { exitStatus, UsageError, type Command, type Host } from "../command.ts";
import { openStudio, settingAsked } from "../studio-source.ts";
import { doWork } from "../work.ts";
import { writeWhole } from "../write-whole.ts";

export const sheetCommand: Command = {
  name: "sheet",
  summary: "print the loader's sheet of a setting as PDF",
  usage: "spyhole sheet [STUDIO.json] [--setting ID] --out FILE.pdf [options]",
  help: [
    "A block for each shelf from the bottom up, with plan, numbers, posts and room for the cones; on the",
    "back the kiln from the side, the forecast and the cautions. Black and white.",
    "",
    "  --setting ID     the setting (its id or name); not needed if there is one only",
    "  --out FILE       the PDF to write",
    "  --paper P        a4 or letter (as the studio is set)",
    "  --large          one shelf a page, its plan as big as fits",
    "  --forecast G     full (default), preview or none",
    "  --store FILE     the store, where no STUDIO.json is named",
  ],
  examples: [
    "spyhole sheet examples/small-studio.json --out sheet.pdf --paper letter",
    "spyhole sheet --setting A --out A.pdf --large --forecast none",
  ],
  options: {
    setting: { type: "string" },
    out: { type: "string" },
    paper: { type: "string" },
    large: { type: "boolean" },
    forecast: { type: "string" },
    store: { type: "string" },
  },
  takes: 1,
  run: async (given, host) => {
    const out = given.text("out");
    if (out === undefined) throw new UsageError("Say where the sheet goes: --out sheet.pdf");
    const paper = oneOf(given.text("paper"), "paper", ["a4", "letter"] as const);
    const grade = oneOf(given.text("forecast") ?? "full", "forecast", ["full", "preview", "none"] as const)!;
    const source = await openStudio(given, host);
    try {
      const { document } = source;
      const setting = settingAsked(document, given.text("setting"));
      const forecast = grade === "none" ? null : await forecastFor(document, setting, grade, host);
      if (host.interrupted.aborted) return exitStatus.interrupted;
      const stops = check(document, setting).findings.filter((each) => each.level === "stop").length;
      const choices = { forecast, stops, plans: given.flag("large") ? "large" : "usual" } as const;
      const input = sheetOf(
        document,
        setting,
        paper === undefined ? choices : { ...choices, paper: paper satisfies Paper },
      );
      const pages = loadersSheet(input);
      const pdf = await pdfOf(pages, input.paper, { title: `Loader’s sheet ${setting.name}`, created: new Date() });
      if (host.interrupted.aborted) return exitStatus.interrupted;
      writeWhole(out, pdf);
      host.out(
        given.flag("json")
          ? `${JSON.stringify({ file: out, pages: pages.length, stops })}\n`
          : `${out}: ${pages.length} ${pages.length === 1 ? "page" : "pages"}. ${stops === 0 ? "" : `${stops} to stop for: see spyhole check. `}\n`,
      );
      return stops === 0 ? exitStatus.done : exitStatus.stopped;
    } finally {
      await source.close();
    }
  },
};

/** The forecast for the back of the sheet; null, with the reason on stderr, where it cannot be computed. */
async function forecastFor(
  document: StudioDocument,
  setting: SettingRecord,
  grade: "full" | "preview",
  host: Host,
): Promise<Forecast | null> {
  const end = await doWork({ request: { work: "forecast", setting, grade }, document }, host);
  if (end.state === "done" && end.result.work === "forecast") return end.result.forecast;
  if (end.state === "failed") host.err(`spyhole sheet: printed without a forecast. ${end.error} ${end.remedy}\n`);
  return null;
}

function oneOf<Choice extends string>(
  given: string | undefined,
  option: string,
  choices: readonly Choice[],
): Choice | undefined {
  if (given === undefined || (choices as readonly string[]).includes(given)) return given as Choice | undefined;
  throw new UsageError(`--${option} is "${given}"; expected ${choices.join(" or ")}.`);
}
