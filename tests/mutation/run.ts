// Mutation testing: changes the named files of lib in one small way at a time, and each time runs the tests
// that mirror them and the published values. A change that no test notices is listed.
//
// npm run mutation -- lib/laws/hydrometer.ts lib/numeric
import { globSync } from "node:fs";
import { Stryker } from "@stryker-mutator/core";

const sources = process.argv
  .slice(2)
  .flatMap((path) => globSync(path.endsWith(".ts") ? path : `${path}/**/*.ts`));
if (sources.length === 0) throw new TypeError("Name files or folders of lib, such as lib/numeric");

await new Stryker({
  mutate: sources,
  testFiles: [
    ...sources.flatMap((source) => globSync(`tests/${source.replace(/\.ts$/, "{,.*}.test.ts")}`)),
    "tests/published/checks.test.ts",
  ],
  testRunner: "vitest",
  plugins: ["@stryker-mutator/vitest-runner"],
  vitest: { configFile: "tests/mutation/vitest.config.ts" },
  // Labels, units and tables are words and data: a test of them would only copy them.
  mutator: { excludedMutations: ["StringLiteral", "ObjectLiteral"] },
  // What runs once, at import, would need every test anew.
  ignoreStatic: true,
  concurrency: 1,
  ignorePatterns: ["dist", ".astro"],
  tempDirName: "tests/output/mutation",
  cleanTempDir: "always",
  reporters: ["clear-text", "json"],
  jsonReporter: { fileName: "tests/output/mutation.json" },
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
}).runMutationTest();
