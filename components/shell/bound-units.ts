import { fileURLToPath } from "node:url";
import type { AstroIntegration } from "astro";
import { bindUnits } from "../../lib/units/bind.ts";
import { START_TAG, rewriteBuilt } from "./built-files.ts";

/** What is no running text: it may be read by a program, or lays out its own words. */
const OTHER = new RegExp(
  [
    String.raw`<(script|style|svg|math|select|textarea|pre|code|title)\b[\s\S]*?<\/\1>`,
    String.raw`<!--[\s\S]*?-->`,
    String.raw`<\/[^>]*>`,
    START_TAG.source,
  ].join("|"),
  "g",
);

/** HTML with each number of its running text bound to its unit. */
export function boundHtml(html: string): string {
  let bound = "";
  let from = 0;
  for (const { 0: other, index } of html.matchAll(OTHER)) {
    bound += bindUnits(html.slice(from, index)) + other;
    from = index + other.length;
  }
  return bound + bindUnits(html.slice(from));
}

/** Lets no line of the built site end between a number and its unit, wherever its words come from. */
export function boundUnits(): AstroIntegration {
  return {
    name: "bound-units",
    hooks: {
      "astro:build:done": ({ dir }) => rewriteBuilt(fileURLToPath(dir), { ".html": boundHtml }),
    },
  };
}
