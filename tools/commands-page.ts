import { commandHelp, commands } from "../src/cli/index.ts";
import path from "node:path";
import { root } from "./rooms.ts";

export const commandsFile = path.join(root, "docs/reference/commands.md");

/** The reference page of the command line, made from its own help. */
export function commandsText(): string {
  return [
    "# The command `spyhole`",
    "",
    "Made from the commands' own help by `npm run docs`. After `npm run build`: `node dist/node/spyhole.js`.",
    "",
    "`STUDIO.json` is a studio document ([schema](studio.schema.json)). Without one, commands work on the store: the file named by `--store` or `SPYHOLE_DATA`, or `data/studio.sqlite`. Every command takes `--json` and `--help`. Exit status: 0 done; 1 a finding that stops loading, or the work failed; 2 wrong use or input; 130 stopped by Ctrl-C.",
    ...commands.flatMap((command) => ["", `## ${command.name}`, "", "```text", commandHelp(command).trimEnd(), "```"]),
    "",
  ].join("\n");
}
