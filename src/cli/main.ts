import { StoreError } from "#store";
import { ServerRefused } from "#server";
import { parseArgs } from "node:util";
import {
  exitStatus,
  UsageError,
  type Command,
  type ExitStatus,
  type Given,
  type Options,
  type Host,
} from "./command.ts";
import { commands } from "./commands.ts";
import { commandHelp, overview } from "./help.ts";

/** Options of every command. */
const commonOptions = { help: { type: "boolean", short: "h" }, json: { type: "boolean" } } as const;

/** Runs the command line and says how it ended. Writes only through its host; throws nothing. */
export async function main(words: readonly string[], host: Host): Promise<ExitStatus> {
  const [name = "", ...rest] = words;
  if (name === "" || name === "--help" || name === "-h" || name === "help") {
    const about = commands.find((each) => each.name === rest[0]);
    host.out(about ? commandHelp(about) : overview(commands));
    return name === "" ? exitStatus.usage : exitStatus.done;
  }
  const command = commands.find((each) => each.name === name);
  try {
    if (!command) throw new UsageError(`There is no command "${name}". See: spyhole --help`);
    const given = parse(command, rest);
    if (given.flag("help")) {
      host.out(commandHelp(command));
      return exitStatus.done;
    }
    return await command.run(given, host);
  } catch (error) {
    if (host.interrupted.aborted) return exitStatus.interrupted;
    return complain(error, command, host);
  }
}

function complain(error: unknown, command: Command | undefined, host: Host): ExitStatus {
  if (error instanceof UsageError) {
    host.err(`spyhole${command ? ` ${command.name}` : ""}: ${error.message}\n`);
    return exitStatus.usage;
  }
  if (error instanceof StoreError || error instanceof ServerRefused) {
    host.err(`spyhole: ${error.message} ${error.remedy}\n`);
    return exitStatus.usage;
  }
  host.err(
    `spyhole: a mistake in Spyhole: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
  );
  return exitStatus.stopped;
}

function parse(command: Command, words: readonly string[]): Given {
  const options: Options = { ...commonOptions, ...command.options };
  let parsed: ReturnType<typeof parseArgs>;
  try {
    parsed = parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
  } catch (error) {
    const reason = error instanceof Error ? error.message.split("\n")[0] : String(error);
    throw new UsageError(`${reason.replace(/\. To specify.*$/, ".")} See: spyhole ${command.name} --help`);
  }
  const { positionals, values } = parsed;
  if (positionals.length > command.takes) {
    throw new UsageError(`"${positionals[command.takes]}" is one too many. Usage: ${command.usage}`);
  }
  const text = (name: string): string | undefined => {
    const value = values[name];
    return typeof value === "string" ? value : undefined;
  };
  return {
    positionals,
    text,
    flag: (name) => values[name] === true,
    number: (name, { least, most }) => {
      const given = text(name);
      if (given === undefined) return undefined;
      const value = Number(given);
      if (given.trim() === "" || !(value >= least && value <= most)) {
        throw new UsageError(`--${name} is "${given}"; expected a number from ${least} to ${most}.`);
      }
      return value;
    },
  };
}
