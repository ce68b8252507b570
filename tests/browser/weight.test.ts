import { readFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";

const folder = path.resolve(process.env["SPYHOLE_DIST"] ?? "dist", "web");

/** Files the page asks for before anything else, and all they import at once. */
function firstFiles(): readonly string[] {
  const page = readFileSync(path.join(folder, "index.html"), "utf8");
  const files = new Set<string>();
  const visit = (file: string): void => {
    if (files.has(file)) return;
    files.add(file);
    const text = readFileSync(path.join(folder, "assets", file), "utf8");
    for (const [, next] of text.matchAll(/(?:from|import)\s*["']\.\/([\w.-]+\.js)["']/g)) visit(next);
  };
  for (const [, file] of page.matchAll(/(?:src|href)="[^"]*assets\/([\w.-]+\.js)"/g)) visit(file);
  return [...files];
}

test("the first screen needs less than 350 kB of script, gzipped", () => {
  const files = firstFiles();
  expect(files.length).toBeGreaterThan(0);
  const bytes = files.reduce((sum, file) => sum + gzipSync(readFileSync(path.join(folder, "assets", file))).length, 0);
  console.log(`script for the first screen: ${(bytes / 1000).toFixed(0)} kB gzipped in ${files.length} files`);
  expect(bytes).toBeLessThan(350_000);
});

test("no script or style stands in the page itself: the policy lets none run", () => {
  const page = readFileSync(path.join(folder, "index.html"), "utf8");
  expect(page).not.toMatch(/<style|<script(?![^>]*\ssrc=)|\sstyle=|\son\w+=/i);
});
