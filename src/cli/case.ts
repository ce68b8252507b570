import { unattended } from "#base";
import { readFileSync } from "node:fs";
import path from "node:path";
import { parseArgs } from "node:util";
import { solveCase } from "./case-door.ts";

/*
 * The door for outside cases: `npm run -s case -- FILE [--seconds S] [--seed N]` prints one JSON object. A file that
 * cannot be run gets one line on stderr and exit status 2.
 */

function refuse(line: string): never {
  process.stderr.write(`${line.replaceAll(/\s*\n\s*/g, " ")}\n`);
  process.exit(2);
}

function read(): { readonly file: string; readonly seconds: number; readonly seed: number } {
  const usage = "Usage: npm run -s case -- FILE [--seconds S] [--seed N]";
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { seconds: { type: "string" }, seed: { type: "string" } },
    });
    const seconds = Number(values.seconds ?? 10);
    const seed = Number(values.seed ?? 1);
    const [file] = positionals;
    if (!file || positionals.length > 1) refuse(usage);
    if (!(seconds > 0 && seconds <= 86_400)) refuse(`--seconds is ${values.seconds}; give a number above 0. ${usage}`);
    if (!Number.isSafeInteger(seed)) refuse(`--seed is ${values.seed}; give a whole number. ${usage}`);
    return { file, seconds, seed };
  } catch (error) {
    refuse(`${error instanceof Error ? error.message : String(error)} ${usage}`);
  }
}

function textOf(file: string): string {
  try {
    // npm runs this from the repository's root; the name is meant from where npm was called.
    return readFileSync(path.resolve(process.env.INIT_CWD ?? ".", file), "utf8");
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === "ENOENT";
    refuse(`${file}: ${missing ? "there is no such file; check its name" : "it cannot be read; check its rights"}`);
  }
}

const { file, seconds, seed } = read();
const text = textOf(file);
const before = process.cpuUsage();
const cpu = (): number => {
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
};
const answer = await solveCase(text, { seconds, seed, control: { ...unattended, elapsed: cpu } });
if (!answer.ok) refuse(`${file}: ${answer.failure}`);
process.stdout.write(`${JSON.stringify({ ...answer.value, cpu_s: Number(cpu().toFixed(3)) })}\n`);
