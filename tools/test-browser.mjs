// Builds the page and the server, then runs the browser tests: node tools/test-browser.mjs [--built] [vitest arguments]
import { spawnSync } from "node:child_process";

const [first, ...rest] = process.argv.slice(2);
const isBuilt = first === "--built";
const more = isBuilt || first === undefined ? rest : [first, ...rest];
const run = (command, args) => spawnSync(command, args, { stdio: "inherit" }).status ?? 1;
const built = isBuilt ? 0 : run(process.execPath, ["tools/build.mjs"]);
process.exitCode =
  built === 0
    ? run(process.execPath, ["node_modules/vitest/vitest.mjs", "run", "--config", "vitest.browser.config.ts", ...more])
    : built;
