import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { renderMath, renderSlots, slotTex } from "../../../components/math/render.ts";
import { graph } from "../../helpers/calculations.ts";

const CROSS = "×";
/** KaTeX's thin space, a sixth of an em. */
const THIN = "margin-right:0.1667em";
/** The same in MathML, between two letters. */
const SPOKEN_SPACE = /<mtext>\s<\/mtext>/;

/** The text of each slot by name, in the half that is drawn and in the half that is spoken. */
function slots(html: string): {
  readonly drawn: readonly (readonly [string, string])[];
  readonly spoken: readonly (readonly [string, string])[];
} {
  const { document } = parseHTML(`<!doctype html><html><body>${html}</body></html>`);
  const within = (half: string) =>
    Array.from(
      document.querySelectorAll(`${half} [data-slot]`),
      (slot) => [slot.getAttribute("data-slot") ?? "", slot.textContent ?? ""] as const,
    );
  return { drawn: within(".katex-html"), spoken: within(".katex-mathml") };
}

const named = (name: string): string => `<${name}>`.replaceAll(/[<>]/g, "|");

describe("renderMath(tex, display)", () => {
  it("draws for eyes, hidden from ears, and speaks in MathML", () => {
    const html = renderMath(String.raw`\frac{a}{b}`);
    expect(html).toContain("<mfrac><mi>a</mi><mi>b</mi></mfrac>");
    expect(html).toMatch(/class="katex-html" aria-hidden="true"/);
  });

  it("does not send the source a third time", () => {
    for (const display of [false, true]) {
      const html = renderMath(String.raw`\varphi_\mathrm{max} < \frac{1}{2}`, display);
      expect(html).not.toContain("annotation");
      expect(html).not.toContain("mathrm{max}");
      expect(html).toContain("</semantics></math>");
    }
  });

  it("stands in the line or in a block", () => {
    expect(renderMath("x")).not.toContain("katex-display");
    expect(renderMath("x", true)).toContain("katex-display");
  });

  it("writes a product of symbols as a thin space", () => {
    const html = renderMath(String.raw`a\by b`);
    expect(html).toContain(THIN);
    expect(html).toMatch(SPOKEN_SPACE);
    expect(html).not.toContain(CROSS);
  });

  it.each([String.raw`\frac{a`, "x^", String.raw`\unheardof{a}`, "a_b_c", "é"])(
    "throws for %s",
    (tex) => {
      expect(() => renderMath(tex)).toThrow();
    },
  );
});

describe("renderSlots(tex, fill)", () => {
  it("fills and marks each slot in both halves, in order", () => {
    const tex = String.raw`\frac{${slotTex("water")}}{${slotTex("whole")}} - ${slotTex("water")}`;
    const { drawn, spoken } = slots(renderSlots(tex, named));
    expect(spoken).toEqual([
      ["water", "|water|"],
      ["whole", "|whole|"],
      ["water", "|water|"],
    ]);
    // A fraction is drawn from below.
    expect(drawn.toSorted()).toEqual(spoken.toSorted());
  });

  it.each([
    ["an exponent", String.raw`x^{${slotTex("n")}}`],
    ["an index", String.raw`x_{${slotTex("n")}}`],
    ["a root", String.raw`\sqrt{${slotTex("n")}}`],
    ["a square", String.raw`(${slotTex("n")})^2`],
    ["a ceiling", String.raw`\left\lceil ${slotTex("n")} \right\rceil`],
    ["a small fraction", String.raw`\tfrac{${slotTex("n")}}{2}`],
    ["a product", String.raw`2\by ${slotTex("n")}`],
  ])("finds a slot in %s", (_, tex) => {
    const { drawn, spoken } = slots(renderSlots(tex, () => "250 mL"));
    expect(drawn).toEqual([["n", "250 mL"]]);
    expect(spoken).toEqual([["n", "250 mL"]]);
  });

  it.each(["strength60F", "spiritStrength20", "q", "zq", "aqz"])(
    "keeps the name %s whole",
    (name) => {
      const { drawn, spoken } = slots(renderSlots(slotTex(name), named));
      expect(drawn).toEqual([[name, `|${name}|`]]);
      expect(spoken).toEqual([[name, `|${name}|`]]);
    },
  );

  it("takes a filling as it is, dollar signs too", () => {
    const { drawn, spoken } = slots(renderSlots(slotTex("a"), () => "$1 $& $$"));
    expect(drawn).toEqual([["a", "$1 $& $$"]]);
    expect(spoken).toEqual([["a", "$1 $& $$"]]);
  });

  it("leaves no token behind", () => {
    expect(renderSlots(slotTex("a"), () => "7")).not.toMatch(/qz|zq/);
  });

  it("writes a product of numbers as a cross, in both halves", () => {
    const html = renderSlots(String.raw`${slotTex("a")}\by ${slotTex("b")}`, () => "7");
    expect(html).toContain(`<mo>${CROSS}</mo>`);
    expect(html).toContain(`<span class="mbin">${CROSS}</span>`);
    expect(html).not.toContain(THIN);
  });

  it("does not send the source a third time", () => {
    expect(renderSlots(slotTex("a"), () => "7")).not.toContain("annotation");
  });

  it("throws where a slot would be lost", () => {
    const tex = String.raw`\textbf{${slotTex("a")}}`;
    expect(() => renderSlots(tex, () => "7")).toThrow(/a slot did not survive/);
    expect(() => renderSlots(String.raw`\text{about qzazq}`, () => "7")).toThrow(/did not survive/);
  });

  it("throws for TeX that does not parse", () => {
    expect(() => renderSlots(String.raw`\frac{${slotTex("a")}`, () => "7")).toThrow();
  });

  it("finds every slot of every step of every calculation", () => {
    for (const { id, steps } of graph.calculations.values())
      for (const { result, tex } of steps) {
        const asked: string[] = [];
        const written = tex((name) => {
          asked.push(name);
          return slotTex(name);
        });
        const { drawn, spoken } = slots(renderSlots(`${slotTex(result)} = ${written}`, named));
        const expected = [result, ...asked].map((name) => [name, `|${name}|`]).toSorted();
        expect(drawn.toSorted(), `${id}: ${result}`).toEqual(expected);
        expect(spoken.toSorted(), `${id}: ${result}`).toEqual(expected);
      }
  });
});
