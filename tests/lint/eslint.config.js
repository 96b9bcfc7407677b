import astro from "eslint-plugin-astro";
import { defineConfig } from "eslint/config";
import tseslint from "typescript-eslint";

/** The one way that imports point: each room may import from those before it, and from itself. */
const ROOMS = [
  "lib/units",
  "lib/numeric",
  "lib/substances",
  "lib/laws",
  "lib/calculations",
  "lib/batch",
  "components",
  "content",
];

const directions = ROOMS.map((room, i) => ({
  files: [`${room}/**/*.{ts,astro}`],
  rules: {
    "no-restricted-imports": [
      "error",
      {
        patterns: [
          ...ROOMS.slice(i + 1).map((later) => ({
            // content/*.json is data that components read, not code they lean on.
            regex: `/${later}/.*(?<!\\.json)$`,
            message: `${room} comes before ${later}: imports point the other way.`,
          })),
          ...(room.startsWith("lib/")
            ? [
                ...ROOMS.filter((other) => other.startsWith("lib/"))
                  .slice(i + 1)
                  .map((later) => ({
                    regex: `^\\.\\./${later.slice(4)}/`,
                    message: `${room} comes before ${later}: imports point the other way.`,
                  })),
                {
                  regex: "^(astro|node:|@observablehq)",
                  message: "lib runs anywhere: no site, no system.",
                },
              ]
            : []),
        ],
      },
    ],
  },
}));

export default defineConfig(
  { ignores: ["dist/**", ".astro/**", "node_modules/**", "coverage/**", "tests/output/**"] },
  ...tseslint.configs.recommended,
  ...astro.configs.recommended,
  {
    rules: {
      "@typescript-eslint/consistent-type-imports": "error",
      "@typescript-eslint/no-unused-vars": [
        "error",
        { argsIgnorePattern: "^_", varsIgnorePattern: "^_" },
      ],
      "no-restricted-syntax": [
        "error",
        { selector: "ExportDefaultDeclaration", message: "Named exports only." },
        { selector: "ExportAllDeclaration", message: "No barrel files." },
      ],
      eqeqeq: "error",
      "prefer-const": "error",
      "no-console": "error",
    },
  },
  {
    files: ["**/*.config.{ts,js,mjs}", "content/content.config.ts"],
    rules: { "no-restricted-syntax": "off" },
  },
  {
    files: [
      "lib/command/**",
      "components/**/*-site.ts",
      "components/offline/precache.ts",
      "tests/**",
    ],
    rules: { "no-console": "off" },
  },
  ...directions,
);
