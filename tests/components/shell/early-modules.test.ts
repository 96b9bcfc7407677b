import { describe, expect, it } from "vitest";
import { preloadModules } from "../../../components/shell/early-modules.ts";

const IMPORTS = new Map([
  ["page.js", ["base.js", "store.js"]],
  ["store.js", ["atom.js", "base.js"]],
  ["atom.js", ["store.js"]],
  ["later.js", ["heavy.js"]],
]);

function preloaded(html: string): readonly (string | undefined)[] {
  return Array.from(
    preloadModules(html, IMPORTS).matchAll(/<link rel="modulepreload" href="([^"]*)">/g),
    ([, href]) => href,
  );
}

describe("preloadModules(html, imports)", () => {
  it("names all that the page's own scripts import, each once, rings included", () => {
    const page = '<head></head><script type="module" src="/a/page.js"></script>';
    expect(preloaded(page)).toEqual(["/a/base.js", "/a/store.js", "/a/atom.js"]);
    expect(preloaded(page + page)).toHaveLength(3);
  });

  it("puts them where the head ends, and leaves a page without scripts as it is", () => {
    const page = '<head><title>$&</title></head><script type="module" src="a/page.js"></script>';
    expect(preloadModules(page, IMPORTS)).toMatch(
      /^<head><title>\$&<\/title>(<link [^>]*>){3}<\/head>/,
    );
    expect(preloadModules("<head></head>", IMPORTS)).toBe("<head></head>");
  });
});
