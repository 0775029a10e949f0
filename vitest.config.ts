import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["tests/{calc,jobs,diagnosis,ui,scripts}/**/*.test.{ts,tsx}"],
          environment: "node",
          // No test measures time; a whole run of a sheet takes seconds on a busy machine.
          testTimeout: 30_000,
        },
      },
      {
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          environment: "node",
          // Two Chromiums at a time: the machines this runs on have two cores, and a browser mostly waits.
          maxWorkers: 2,
          testTimeout: 240_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
