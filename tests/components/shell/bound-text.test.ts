import { describe, expect, it } from "vitest";
import { boundHtml } from "../../../components/shell/bound-text.ts";

describe("boundHtml(html)", () => {
  it.each([
    ["<p>At 20 °C.</p>", "<p>At 20~°C.</p>"],
    ["<p>At 20\n      °C it is 5 % <b>3 g</b></p>", "<p>At 20~°C it is 5~% <b>3~g</b></p>"],
    ['<p title="a > 2 g">4 g</p>', '<p title="a > 2 g">4~g</p>'],
    ["2 g<br>3 g", "2~g<br>3~g"],
    ["<!-- 2 g --><p>3 g", "<!-- 2 g --><p>3~g"],
  ])("binds the text of %s", (html, bound) => {
    expect(boundHtml(html)).toBe(bound.replaceAll("~", "\u00a0"));
  });

  it("takes brackets and stops into the span of their formula", () => {
    const formula = '<span class="formula"><math><mi>x</mi></math></span>';
    expect(boundHtml(`so (${formula}), or ${formula}.`)).toBe(
      'so <span class="formula">(<math><mi>x</mi></math>),</span> or ' +
        '<span class="formula"><math><mi>x</mi></math>.</span>',
    );
    expect(boundHtml(`${formula} and (so)`)).toBe(`${formula} and (so)`);
  });

  it.each([
    "<script>const text = `2 g`;</script>",
    "<style>a::after { content: '2 g' }</style>",
    "<select><option>2 L</option></select>",
    "<textarea>2 g</textarea>",
    "<pre><span>2</span> 3 g</pre>",
    "<svg><text>2 g</text></svg>",
    "<math><mtext>2 g</mtext></math>",
    "<title>2 g</title>",
    '<input value="2 g">',
  ])("leaves %s", (html) => {
    expect(boundHtml(`${html}<p>5 g</p>`)).toBe(`${html}<p>5\u00a0g</p>`);
  });
});
