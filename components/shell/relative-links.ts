import { fileURLToPath } from "node:url";
import type { AstroIntegration } from "astro";
import { START_TAG, rewriteBuilt } from "./built-files.ts";

const LINK = /(\s(?:href|src|action|poster|xlink:href)=)(["'])\/(?!\/)([^"']*)\2/g;
const CSS_URL = /url\((["']?)\/(?!\/)([^"')]*)\1\)/g;

/** The way from a built file up to the root: "./" for `index.html`, "../../" for `a/b/index.html`. */
export function rootFrom(file: string): string {
  const depth = file.split("/").length - 1;
  return depth === 0 ? "./" : "../".repeat(depth);
}

/** Every address in HTML that starts at the host's root, as one that starts at the page. */
export function relativeHtml(html: string, root: string): string {
  return html.replaceAll(START_TAG, (tag) => tag.replaceAll(LINK, `$1$2${root}$3$2`));
}

/** The same for `url(…)` in a stylesheet. */
export function relativeCss(css: string, root: string): string {
  return css.replaceAll(CSS_URL, `url($1${root}$2$1)`);
}

/**
 * Lets the built site work under any path, found out by nobody: each page reaches the others by relative
 * links. Authors write `/chapters/` and need not know.
 *
 * `404.html` keeps its links from the root, for a host shows it at any depth; `lib/command/serve.ts` puts
 * its own path before them.
 */
export function relativeLinks(): AstroIntegration {
  return {
    name: "relative-links",
    hooks: {
      "astro:build:done": ({ dir }) =>
        rewriteBuilt(fileURLToPath(dir), {
          ".html": (html, file) =>
            file === "404.html" ? html : relativeHtml(html, rootFrom(file)),
          ".css": (css, file) => relativeCss(css, rootFrom(file)),
        }),
    },
  };
}
