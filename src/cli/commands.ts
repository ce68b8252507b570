import type { Command } from "./command.ts";
import { checkCommand } from "./commands/check.ts";
import { forecastCommand } from "./commands/forecast.ts";
import { proposeCommand } from "./commands/propose.ts";
import { serveCommand } from "./commands/serve.ts";
import { sheetCommand } from "./commands/sheet.ts";
import { demoCommand, exportCommand, importCommand } from "./commands/studio-files.ts";

/** In the order of the job. */
export const commands: readonly Command[] = [
  proposeCommand,
  checkCommand,
  forecastCommand,
  sheetCommand,
  serveCommand,
  demoCommand,
  importCommand,
  exportCommand,
];
