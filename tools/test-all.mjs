// Passes all tests: format, lint, types, unit, verification, build, browser. One line a step; stops at none, fails on any.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";

const bin = (name) => path.join("node_modules", ".bin", name);
const scratch = mkdtempSync(path.join(tmpdir(), "spyhole-tests-"));
let passed = 0;
let failed = 0;

function step(name, command, args, count) {
  const began = Date.now();
  process.stdout.write(`\n== ${name}\n`);
  const done = spawnSync(command, args, { stdio: "inherit", env: process.env });
  const good = done.status === 0;
  const seconds = ((Date.now() - began) / 1000).toFixed(0);
  const counted = count?.();
  if (counted) {
    passed += counted.passed;
    failed += counted.failed;
    if (!good && counted.failed === 0) failed += 1;
  } else if (good) passed += 1;
  else failed += 1;
  process.stdout.write(`== ${name}: ${good ? "passed" : "FAILED"} (${seconds} s)\n`);
}

/** Tests passed and failed as a Vitest JSON report tells it; a missing report counts as a failure. */
function vitestReport(file) {
  return () => {
    try {
      const report = JSON.parse(readFileSync(file, "utf8"));
      const skipped = report.numPendingTests + report.numTodoTests;
      if (skipped > 0) process.stdout.write(`${skipped} tests were skipped: none may be\n`);
      return { passed: report.numPassedTests, failed: report.numFailedTests + skipped };
    } catch {
      return { passed: 0, failed: 1 };
    }
  };
}

const unit = path.join(scratch, "unit.json");
const browser = path.join(scratch, "browser.json");
step("format", bin("oxfmt"), ["--check"]);
step("lint", bin("oxlint"), ["--type-aware", "--max-warnings", "0"]);
step("unused", bin("knip"), []);
for (const layer of ["engine", "node", "web"]) step(`types: ${layer}`, bin("tsc"), ["-p", `tsconfig.${layer}.json`]);
step("build", "node", ["tools/build.mjs"]);
step(
  "unit and verification",
  bin("vitest"),
  ["run", "--reporter=default", "--reporter=json", `--outputFile.json=${unit}`],
  vitestReport(unit),
);
step(
  "browser",
  bin("vitest"),
  [
    "run",
    "--config",
    "vitest.browser.config.ts",
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${browser}`,
  ],
  vitestReport(browser),
);

process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
process.exit(failed === 0 ? 0 : 1);
