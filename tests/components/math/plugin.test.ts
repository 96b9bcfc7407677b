import { satteri } from "@astrojs/markdown-satteri";
import { describe, expect, it } from "vitest";
import { mathPlugin } from "../../../components/math/plugin.ts";

/** The elements that a chapter's text becomes, in order, by the processor that the site is built with. */
async function elements(text: string): Promise<readonly string[]> {
  const processor = satteri({ features: { math: true }, mdastPlugins: [mathPlugin] });
  const renderer = await processor.createMdxRenderer?.(
    { syntaxHighlight: false },
    { optimize: false },
  );
  const code = (await renderer?.process(text, "/text.mdx", {}))?.code ?? "";
  return Array.from(
    code.matchAll(/_jsxs?\((?:_components\.(\w+)|"(\w+)"),/g),
    ([, name, raw]) => name ?? raw ?? "",
  );
}

describe("mathPlugin", () => {
  it("leaves a formula in its sentence", async () => {
    expect(await elements("Let $k$ be small.")).toEqual(["p", "span", "math", "mi"]);
    expect(await elements("- Let $k$ be small.")).toEqual(["ul", "li", "span", "math", "mi"]);
  });

  it("gives a displayed equation a place between paragraphs", async () => {
    expect(await elements("Let\n\n$$\nk\n$$\n\nbe small.")).toEqual([
      "p",
      "div",
      "math",
      "mi",
      "p",
    ]);
  });
});
