import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: [
      "src/**/*.test.ts",
      "src/**/*.test.tsx",
      "tests/**/*.test.ts",
      "verification/**/*.test.ts",
      "validation/**/*.test.ts",
    ],
    exclude: ["tests/browser/**", "node_modules/**"],
    testTimeout: 60_000,
    pool: "threads",
  },
});
