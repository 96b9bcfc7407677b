import { describe, expect, it } from "vitest";
import { entryText, quantityText, rangeText, readEntry } from "../../../lib/calculations/entry.ts";
import { CALCULATION_IDS } from "../../../lib/calculations/registry.ts";
import { graph } from "../../helpers/calculations.ts";
import { plain } from "../../helpers/small-calculations.ts";

const x = plain("x", { limits: { min: 1, max: 9, unit: "1" } });
const many = plain("many", { limits: { min: 1, max: 1e9, unit: "1" }, endless: true });
const count = plain("count", { limits: { min: 1, max: 9, unit: "1" }, whole: true });

describe("readEntry(input, text, unit)", () => {
  it("reads a number in range", () => {
    expect(readEntry(x, "2,5", "1")).toEqual({ ok: true, value: 2.5, unit: "1" });
  });
  it.each([1, 9])("takes %d, an end of its range", (end) => {
    expect(readEntry(x, String(end), "1")).toMatchObject({ ok: true, value: end });
  });
  it("leaves it to the reading to say why a text is no number", () => {
    expect(readEntry(x, "", "1")).toEqual({
      ok: false,
      message: "Type a number, for example 12.5.",
    });
  });
  it.each(["0.9", "9.1", "nonsense", ""])("says what to type instead of %j", (text) => {
    const read = readEntry(x, text, "1");
    expect(read.ok ? "" : read.message).toMatch(/^(x must be from 1 to 9\.|.*Type )/);
  });
  it.each(["infinite", "∞", "Infinity", " instant "])(
    "takes %j where there may be no limit",
    (text) => {
      expect(readEntry(many, text, "1")).toEqual({ ok: true, value: 1e9, unit: "1" });
      expect(readEntry(x, text, "1").ok).toBe(false);
    },
  );
  it("takes only whole numbers of what is counted", () => {
    expect(readEntry(count, "3", "1").ok).toBe(true);
    const read = readEntry(count, "3.5", "1");
    expect(read.ok ? "" : read.message).toBe("count must be a whole number from 1 to 9.");
  });
});

describe("rangeText(input, unit)", () => {
  const long = plain("long", {
    dimension: "time",
    units: ["min", "s"],
    limits: { min: 1, max: 1e6, unit: "s" },
  });
  it("says the ends as they are where four digits tell them", () => {
    expect(rangeText(long, "s")).toBe("from 1\u00a0s to 1\u202f000\u202f000\u00a0s");
  });
  it("rounds them inwards where they do not", () => {
    expect(rangeText(long, "min")).toBe("from 0.017\u00a0min to 16\u202f000\u00a0min");
  });

  const inputs = CALCULATION_IDS.flatMap((id) => Object.values(graph.get(id).inputs));
  const numbers = [...new Set(inputs)].filter((input) => input.kind === "number");
  it.each(numbers.map((input) => [input.name, input] as const))(
    "promises nothing of %s that is refused",
    (_, input) => {
      for (const unit of input.units) {
        const text = rangeText(input, unit).replaceAll("\u2212", "-").replaceAll("\u202f", "");
        const ends = [...text.matchAll(/(?:^|from |to )(-?[\d.]+)/g)].map(([, end = ""]) => end);
        expect(ends).toHaveLength(input.endless ? 1 : 2);
        for (const end of ends)
          expect(readEntry(input, end, unit), `${end} of ${text}`).toMatchObject({ ok: true });
      }
    },
  );
});

describe("what a field and an equation show", () => {
  it("writes out what stands for no limit", () => {
    expect(entryText(many, 1e9, "1", false)).toBe("infinite");
    expect(quantityText(many, 1e9, "1")).toBe("∞");
    expect(rangeText(many, "1")).toBe("1 or more");
  });
  it("writes a number below that, and at the top of a range that ends", () => {
    expect(entryText(many, 12, "1", false)).toBe("12");
    expect(quantityText(many, 12, "1")).toBe("12");
    expect(entryText(x, 9, "1", false)).toBe("9");
    expect(quantityText(x, 9, "1")).toBe("9");
  });
  it("keeps the digits of what was typed and trims what was worked out", () => {
    expect(entryText(x, 2.123456789, "1", false)).toBe("2.123456789");
    expect(entryText(x, 2.123456789, "1", true)).toBe("2.123");
  });
});
