// Builds dist/node (command, server, worker) and dist/web (the page) at the same time; "node" or "web" builds one.
import { rm } from "node:fs/promises";
import { build as buildPage } from "vite";
import { bundleForNode } from "./bundle.mjs";

const parts = {
  node: async () => {
    await rm("dist/node", { recursive: true, force: true });
    await bundleForNode("dist/node");
  },
  web: () => buildPage({ logLevel: "warn" }),
};

const asked = process.argv.slice(2);
const unknown = asked.find((name) => !(name in parts));
if (unknown) {
  process.stderr.write(`There is no part "${unknown}": node tools/build.mjs [${Object.keys(parts).join("|")}]\n`);
  process.exit(2);
}
const began = Date.now();
const names = asked.length > 0 ? asked : Object.keys(parts);
const done = await Promise.allSettled(names.map((name) => parts[name]()));
const failed = names.filter((_, index) => done[index].status === "rejected");
for (const each of done)
  if (each.status === "rejected") process.stderr.write(`${each.reason?.message ?? each.reason}\n`);
process.stdout.write(
  failed.length > 0
    ? `Not built: ${failed.join(", ")}\n`
    : `Built ${names.join(" and ")} in ${((Date.now() - began) / 1000).toFixed(1)} s\n`,
);
process.exitCode = failed.length > 0 ? 1 : 0;
