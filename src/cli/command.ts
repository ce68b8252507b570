import type { JobRunner } from "#jobs";
import type { ParseArgsConfig } from "node:util";

/** Exit status of the command. */
export const exitStatus = {
  done: 0,
  /** Done, but with a finding that stops loading; or the work failed. */
  stopped: 1,
  /** Wrong use or input. */
  usage: 2,
  /** Ended by Ctrl-C, as shells expect. */
  interrupted: 130,
} as const;

export type ExitStatus = (typeof exitStatus)[keyof typeof exitStatus];

/** The process around a command: where it writes, how it hears Ctrl-C, what runs its work. Tests give their own. */
export interface Host {
  readonly out: (text: string) => void;
  /** Progress and complaints. */
  readonly err: (text: string) => void;
  /** True if `err` is a screen that can rewrite a line. */
  readonly isScreen: boolean;
  readonly interrupted: AbortSignal;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** The studio's own date, ISO 8601. */
  readonly today: string;
  /** Runs so many tasks at once. */
  readonly makeRunner: (size: number) => JobRunner;
  /** Folder of the built page. */
  readonly webFolder: string;
}

export type Options = NonNullable<ParseArgsConfig["options"]>;

export interface Given {
  readonly positionals: readonly string[];
  readonly text: (name: string) => string | undefined;
  readonly flag: (name: string) => boolean;
  /** A number given as an option. @throws UsageError if it is none or out of range */
  readonly number: (name: string, range: { readonly least: number; readonly most: number }) => number | undefined;
}

export interface Command {
  readonly name: string;
  /** One line. */
  readonly summary: string;
  readonly usage: string;
  /** What it does, in a few lines, and each option on one. */
  readonly help: readonly string[];
  /** Lines that work as they stand, after the repository's examples. */
  readonly examples: readonly string[];
  readonly options: Options;
  /** Most positional arguments taken. */
  readonly takes: number;
  readonly run: (given: Given, host: Host) => Promise<ExitStatus>;
}

/** Wrong use or input: what is wrong and what to do, on one or a few lines. */
export class UsageError extends Error {
  constructor(message: string) {
    super(message);
    this.name = "UsageError";
  }
}
