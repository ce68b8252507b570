// Runs a TypeScript file from source: node tools/run-source.mjs FILE [arguments…]
import { register } from "tsx/esm/api";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [file, ...rest] = process.argv.slice(2);
if (!file) {
  process.stderr.write("Name a file: node tools/run-source.mjs src/cli/case.ts …\n");
  process.exit(2);
}
register();
process.argv = [process.argv[0], path.resolve(file), ...rest];
await import(pathToFileURL(path.resolve(file)).href);
