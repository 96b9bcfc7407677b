import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: fileURLToPath(new URL("../..", import.meta.url)),
  test: {
    include: ["tests/{lib,published}/**/*.test.ts"],
    environment: "node",
    // A test that is slow on a busy machine has not noticed anything.
    testTimeout: 60_000,
  },
});
