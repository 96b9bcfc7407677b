import { readFile, readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { AstroIntegration } from "astro";

const MODULE = /<script type="module" src="([^"]*\/)([^"/]+)">/g;

/**
 * A page with a `modulepreload` for all that its scripts import: else a phone asks for each only once it has
 * read the one before, a round trip a step.
 *
 * @param imports - static imports of each script, by file name
 */
export function preloadModules(
  html: string,
  imports: ReadonlyMap<string, readonly string[]>,
): string {
  const found = new Set<string>();
  const visit = (folder: string, name: string): void => {
    for (const next of imports.get(name) ?? []) {
      if (found.has(folder + next)) continue;
      found.add(folder + next);
      visit(folder, next);
    }
  };
  for (const [, folder = "", name = ""] of html.matchAll(MODULE)) visit(folder, name);
  const links = Array.from(found, (href) => `<link rel="modulepreload" href="${href}">`).join("");
  return html.replace("</head>", () => `${links}</head>`);
}

/** Tells each built page, in its head, which scripts it will need. */
export function earlyModules(): AstroIntegration {
  const imports = new Map<string, readonly string[]>();
  const nameOf = (file: string): string => file.slice(file.lastIndexOf("/") + 1);
  return {
    name: "early-modules",
    hooks: {
      "astro:config:setup": ({ updateConfig }) => {
        updateConfig({
          vite: {
            plugins: [
              {
                name: "early-modules",
                generateBundle: (_, bundle) => {
                  for (const part of Object.values(bundle))
                    if (part.type === "chunk")
                      imports.set(nameOf(part.fileName), part.imports.map(nameOf));
                },
              },
            ],
          },
        });
      },
      "astro:build:done": async ({ dir }) => {
        const root = fileURLToPath(dir);
        const files = await readdir(root, { recursive: true });
        await Promise.all(
          files
            .filter((file) => file.endsWith(".html"))
            .map(async (file) => {
              const path = join(root, file);
              await writeFile(path, preloadModules(await readFile(path, "utf8"), imports));
            }),
        );
      },
    },
  };
}
