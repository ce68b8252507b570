import type { Command } from "./command.ts";
import { serveCommand } from "./commands/serve.ts";

/** In the order of the job. */
export const commands: readonly Command[] = [serveCommand];
