import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["tests/{lib,components,published}/**/*.test.ts"],
          environment: "node",
        },
      },
      {
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          environment: "node",
          globalSetup: "tests/browser/setup.ts",
          // One browser, two cores: files run one after another, each with a context of its own.
          fileParallelism: false,
          testTimeout: 40_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
