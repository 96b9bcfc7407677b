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

/** Some browsers end a line on either side of MathML, whatever is written there. */
const BEFORE_FORMULA = /([(“‘]+)(<span class="formula">)/g;
const AFTER_FORMULA = /(<\/math>)(<\/span>)([).,;:!?”’]+)/g;

/** HTML with each number of its running text bound to its unit, and each formula to its brackets and stops. */
export function boundHtml(html: string): string {
  return withUnits(html).replaceAll(BEFORE_FORMULA, "$2$1").replaceAll(AFTER_FORMULA, "$1$3$2");
}

function withUnits(html: string): string {
  let bound = "";
  let from = 0;
  for (const { 0: other, index } of html.matchAll(OTHER)) {
    bound += bindUnits(html.slice(from, index)) + other;
    from = index + other.length;
  }
  return bound + bindUnits(html.slice(from));
}

/** Lets no line of the built site end amid what belongs together, wherever its words come from. */
export function boundText(): AstroIntegration {
  return {
    name: "bound-text",
    hooks: {
      "astro:build:done": ({ dir }) => rewriteBuilt(fileURLToPath(dir), { ".html": boundHtml }),
    },
  };
}
