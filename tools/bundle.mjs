import { build } from "esbuild";

/** Packages that are not bundled: one holds native code, the others read files beside their own. */
const external = ["better-sqlite3", "highs", "pdfkit", "svg-to-pdfkit"];

/** Bundles for Node: the command `spyhole.js` and the thread `worker.js` it starts, into `folder`. */
export function bundleForNode(folder) {
  return build({
    entryPoints: { spyhole: "src/cli/spyhole.ts", worker: "src/jobs/worker.ts" },
    outdir: folder,
    bundle: true,
    splitting: true,
    chunkNames: "part-[hash]",
    platform: "node",
    format: "esm",
    target: "node20",
    sourcemap: true,
    external,
    logLevel: "warning",
    // Some packages inside still call require.
    banner: {
      js: '#!/usr/bin/env node\nimport { createRequire as nodeRequire } from "node:module"; const require = nodeRequire(import.meta.url);',
    },
  });
}
