import { readdirSync, readFileSync } from "node:fs";
import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { renderMath, renderSlots, slotTex } from "../../../components/math/render.ts";
import { graph } from "../../helpers/calculations.ts";

/** The text of each slot by name, in the order of the page. */
function slots(html: string): readonly (readonly [string, string])[] {
  const { document } = parseHTML(`<!doctype html><html><body>${html}</body></html>`);
  return Array.from(
    document.querySelectorAll("math [data-slot]"),
    (slot) => [slot.getAttribute("data-slot") ?? "", slot.textContent ?? ""] as const,
  );
}

const named = (name: string): string => `<${name}>`.replaceAll(/[<>]/g, "|");

describe("renderMath(tex, display)", () => {
  it("gives MathML and nothing besides", () => {
    expect(renderMath(String.raw`\frac{a}{b}`)).toBe(
      "<math><mfrac><mi>a</mi><mi>b</mi></mfrac></math>",
    );
  });

  it("does not send the source a second time", () => {
    for (const display of [false, true]) {
      const html = renderMath(String.raw`\varphi_\mathrm{max} < \frac{1}{2}`, display);
      expect(html).not.toMatch(/annotation|semantics|mathrm\{max/);
    }
  });

  it("stands in the line or in a block", () => {
    expect(renderMath("x")).toBe("<math><mi>x</mi></math>");
    expect(renderMath("x", true)).toBe('<math display="block"><mi>x</mi></math>');
  });

  it("keeps equations below each other", () => {
    const html = renderMath(String.raw`\begin{aligned} a &= b \\ &= c \end{aligned}`, true);
    expect(html.match(/<mtr>/g)).toHaveLength(2);
  });

  it("says an upright word as one, and leaves one upright letter upright", () => {
    expect(renderMath(String.raw`m_\mathrm{max}`)).toContain("<mi>m</mi><mi>max</mi>");
    expect(renderMath(String.raw`m_\mathrm{w}`)).toContain('<mi mathvariant="normal">w</mi>');
  });

  it("writes a product of symbols as a thin space", () => {
    expect(renderMath(String.raw`a\by b`)).toBe(
      '<math><mi>a</mi><mspace width="0.17em"/><mi>b</mi></math>',
    );
  });

  it("sets a function apart from a letter, not from a bracket", () => {
    expect(renderMath(String.raw`\ln x`)).toContain("<mspace");
    expect(renderMath(String.raw`\ln (x)`)).not.toContain("<mspace");
    expect(renderMath(String.raw`\ln \left(x\right)`)).not.toContain("<mspace");
  });

  it("sets a sign close and a difference apart", () => {
    expect(renderMath("a = -b")).toContain('<mo form="prefix">−</mo>');
    expect(renderMath("f(-b)")).toContain('<mo form="prefix">−</mo>');
    expect(renderMath("a - b")).toContain("<mo>−</mo>");
  });

  it.each([
    ["after its operand", String.raw`a\ln b`, "a ln\u2061 b"],
    ["after a bracket", String.raw`(a)\cos b`, "(a) cos\u2061 b"],
    ["with an index", String.raw`\log_{10}b`, "log10\u2061 b"],
    ["with both", String.raw`a\log_{10}b`, "a log10\u2061 b"],
    ["before a bracket", String.raw`-\log_{10}(a)`, "−log10\u2061(a)"],
    ["inside a bracket", String.raw`(\ln b)`, "(ln\u2061 b)"],
  ])("sets a function apart from its neighbours, %s", (_, tex, text) => {
    const spaced = renderMath(tex).replaceAll(/<mspace[^>]*>/g, " ");
    expect(spaced.replaceAll(/<[^>]*>/g, "")).toBe(text);
  });

  it("keeps the sign of a charge with its number", () => {
    expect(renderMath(String.raw`\mathrm{A^{2-}}`)).toContain(
      '<mn>2</mn><mo lspace="0" rspace="0">−</mo>',
    );
    expect(renderMath("x^{2-a}")).toContain("<mn>2</mn><mo>−</mo>");
  });

  it.each([String.raw`\frac{a`, "x^", String.raw`\unheardof{a}`, "a_b_c", "é"])(
    "throws for %s",
    (tex) => {
      expect(() => renderMath(tex)).toThrow();
    },
  );
});

describe("renderSlots(tex, fill)", () => {
  it("fills and marks each slot, in order", () => {
    const tex = String.raw`\frac{${slotTex("water")}}{${slotTex("whole")}} - ${slotTex("water")}`;
    expect(slots(renderSlots(tex, named))).toEqual([
      ["water", "|water|"],
      ["whole", "|whole|"],
      ["water", "|water|"],
    ]);
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
    expect(slots(renderSlots(tex, () => "250 mL"))).toEqual([["n", "250 mL"]]);
  });

  it.each(["strength60F", "spiritStrength20", "q", "zq", "aqz"])(
    "keeps the name %s whole",
    (name) => {
      expect(slots(renderSlots(slotTex(name), named))).toEqual([[name, `|${name}|`]]);
    },
  );

  it("takes a filling as it is, dollar signs too", () => {
    expect(slots(renderSlots(slotTex("a"), () => "$1 $& $$"))).toEqual([["a", "$1 $& $$"]]);
  });

  it("leaves no token behind", () => {
    expect(renderSlots(slotTex("a"), () => "7")).not.toMatch(/qz|zq/);
  });

  it("writes a product of numbers as a cross", () => {
    const html = renderSlots(String.raw`${slotTex("a")}\by ${slotTex("b")}`, () => "7");
    expect(html).toMatch(/<mo [^>]*>×<\/mo>/);
    expect(html).not.toContain("mspace");
  });

  it("makes a slot a number: text beside an operator would take its space", () => {
    expect(renderSlots(slotTex("a"), () => "7")).toContain('<mn data-slot="a">7</mn>');
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
        const found = slots(renderSlots(`${slotTex(result)} = ${written}`, named));
        const expected = [result, ...asked].map((name) => [name, `|${name}|`]).toSorted();
        expect(found.toSorted(), `${id}: ${result}`).toEqual(expected);
      }
  });
});

describe("the math font", () => {
  const sheet = readFileSync(new URL("../../../components/math/math.css", import.meta.url), "utf8");
  const ranges = [...sheet.matchAll(/U\+([0-9A-F]+)(?:-([0-9A-F]+))?/g)].map(
    ([, from = "", to = from]) => [Number.parseInt(from, 16), Number.parseInt(to, 16)] as const,
  );
  const has = (point: number): boolean => ranges.some(([from, to]) => point >= from && point <= to);

  /** A letter by itself is drawn slanted, which is another character. */
  function slanted(letter: string): number {
    const point = letter.codePointAt(0) ?? 0;
    if (letter === "h") return 0x210e;
    if (/[A-Z]/.test(letter)) return 0x1d434 + point - 0x41;
    if (/[a-z]/.test(letter)) return 0x1d44e + point - 0x61;
    if (/[Α-Ω]/.test(letter)) return 0x1d6e2 + point - 0x391;
    const form = "∂ϵϑϰϕϱϖ".indexOf(letter);
    if (form >= 0) return 0x1d715 + form;
    return /[α-ω]/.test(letter) ? 0x1d6fc + point - 0x3b1 : point;
  }

  function missing(html: string): readonly string[] {
    const { document } = parseHTML(`<!doctype html><html><body>${html}</body></html>`);
    return Array.from(document.querySelectorAll("mi, mn, mo"), (element) => {
      const letters = [...(element.textContent ?? "")];
      const alone =
        element.matches("mi") && letters.length === 1 && !element.hasAttribute("mathvariant");
      return letters.filter((letter) => !has(alone ? slanted(letter) : letter.codePointAt(0)!));
    }).flat();
  }

  it("sees what is missing", () => {
    expect(missing(renderMath(String.raw`a \approx \aleph`))).toEqual(["ℵ"]);
  });

  it("has every character of every equation of the calculations", () => {
    for (const { id, steps, inputs, results } of graph.calculations.values()) {
      const symbolOf = (name: string): string =>
        (results[name] ?? (inputs[name] as { symbol: string })).symbol;
      for (const { result, tex } of steps)
        expect(missing(renderMath(`${symbolOf(result)} = ${tex(symbolOf)}`)), id).toEqual([]);
    }
  });

  it("has every character of every equation of the chapters", () => {
    const folder = new URL("../../../content/chapters/", import.meta.url);
    for (const file of readdirSync(folder)) {
      const text = readFileSync(new URL(file, folder), "utf8");
      const equations = [...text.matchAll(/\$\$([^$]+)\$\$|\$([^$\n]+)\$/g)];
      expect(equations.length, file).toBeGreaterThan(0);
      for (const [, block, inline] of equations)
        expect(missing(renderMath(block ?? inline ?? "")), `${file}: ${block ?? inline}`).toEqual(
          [],
        );
    }
  });
});
