import { defineConfig } from "vitest/config";

/** The page in a real browser against a real server. Built files in dist/ are tested: see tools/test-browser.mjs. */
export default defineConfig({
  test: {
    include: ["tests/browser/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // One browser and one computing server at a time are enough for two cores.
    fileParallelism: false,
    pool: "threads",
  },
});
