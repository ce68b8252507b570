import type { Command } from "./command.ts";

const cautions = [
  "General information only. The kiln’s own manual, local code and a licensed",
  "electrician come first. A forecast is an estimate: the witness cones decide.",
];

export function overview(commands: readonly Command[]): string {
  const widest = Math.max(...commands.map((each) => each.name.length));
  return [
    "spyhole: see inside an electric kiln firing before you light it",
    "",
    "Usage: spyhole COMMAND [STUDIO.json] [options]",
    "",
    ...commands.map((each) => `  ${each.name.padEnd(widest)}  ${each.summary}`),
    "",
    "STUDIO.json is a studio document (spyhole export, spyhole demo). Without one, commands",
    "work on the store: the file named by --store or SPYHOLE_DATA, or data/studio.sqlite.",
    "Every command: --json for a machine, --help for its options and examples.",
    "Exit status: 0 done; 1 a finding that stops loading, or the work failed; 2 wrong use or input.",
    "",
    ...cautions,
    "",
  ].join("\n");
}

export function commandHelp(command: Command): string {
  return [
    `spyhole ${command.name}: ${command.summary}`,
    "",
    `Usage: ${command.usage}`,
    "",
    ...command.help,
    "",
    "Examples:",
    ...command.examples.map((line) => `  ${line}`),
    "",
  ].join("\n");
}
