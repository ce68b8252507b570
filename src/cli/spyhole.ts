import { threadRunner } from "#jobs";
import { fileURLToPath } from "node:url";
import { main } from "./main.ts";

/* Entry of the command `spyhole`: the only place that knows the process. Runs bundled, in dist/node. */

const abort = new AbortController();
for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => abort.abort());
// A reader that went away (| head) is no mistake.
process.stdout.on("error", (error: NodeJS.ErrnoException) => process.exit(error.code === "EPIPE" ? 0 : 1));

const now = new Date();
const two = (value: number): string => String(value).padStart(2, "0");

process.exitCode = await main(process.argv.slice(2), {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  isScreen: process.stderr.isTTY,
  interrupted: abort.signal,
  env: process.env,
  today: `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`,
  makeRunner: (size) => threadRunner({ entry: new URL("worker.js", import.meta.url), size }),
  webFolder: fileURLToPath(new URL("../web", import.meta.url)),
});
