import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatField } from "../../../lib/units/format.ts";
import { parse } from "../../../lib/units/parse.ts";
import { UNITS, unitOf, type Dimension } from "../../../lib/units/units.ts";

const mass = (text: string) => parse(text, "mass", ["g", "kg", "oz"], "g");
const strength = (text: string) => parse(text, "strength", ["% vol", "US proof"], "% vol");
const temperature = (text: string) => parse(text, "temperature", ["°C", "°F"], "°C");

function messageOf(parsed: ReturnType<typeof parse>): string {
  return parsed.ok ? "" : parsed.message;
}

describe("parse(text, dimension, units, assumed)", () => {
  it.each([
    ["12.5", 12.5],
    ["12,5", 12.5],
    ["12,5 g", 12.5],
    ["12,5g", 12.5],
    ["  12.5  ", 12.5],
    ["+3", 3],
    [".5", 0.5],
    [",5", 0.5],
    ["5.", 5],
    ["007", 7],
    ["1e3", 1000],
    ["1E-3", 0.001],
    ["1e9", 1e9],
    ["1 250,5 g", 1250.5],
    ["1\u202f250,5\u00a0g", 1250.5],
    ["12 345.25", 12_345.25],
    ["1 250", 1250],
    ["1 234 567", 1_234_567],
    ["1'250.5", 1250.5],
    ["1234567", 1_234_567],
    ["0.0", 0],
    ["-5", -5],
    ["\u22125", -5],
    ["0.25 kg", 250],
    ["2 KG", 2000],
    ["250 grams", 250],
  ])("reads “%s” as %d g", (text, grams) => {
    const parsed = mass(text);
    expect(parsed.ok && parsed.value * 1000).toBeCloseTo(grams, 9);
  });

  it("keeps the unit that was written, and takes the field's where none was", () => {
    expect(mass("2 kg")).toMatchObject({ ok: true, unit: "kg", value: 2 });
    expect(mass("2")).toMatchObject({ ok: true, unit: "g", value: 0.002 });
    expect(mass("2 lb")).toMatchObject({ ok: true, unit: "lb" });
  });

  it.each([
    ["68 °F", "°F", 20],
    ["68f", "°F", 20],
    ["68 Fahrenheit", "°F", 20],
    ["20 C", "°C", 20],
    ["−5 °C", "°C", -5],
  ])("reads “%s” as a temperature in %s", (text, unit, celsius) => {
    const parsed = temperature(text);
    expect(parsed).toMatchObject({ ok: true, unit });
    expect(parsed.ok && parsed.value).toBeCloseTo(celsius, 12);
  });

  it.each([
    ["70 % vol", 0.7],
    ["70%vol", 0.7],
    ["70 %", 0.7],
    ["70 ABV", 0.7],
    ["70", 0.7],
    ["80 US proof", 0.4],
    ["80 us Proof", 0.4],
    ["80usproof", 0.4],
    ["80° US proof", 0.4],
    ["80 proof US", 0.4],
    ["80 U.S. proof", 0.4],
    ["80 American proof", 0.4],
  ])("reads “%s” as a strength of %d", (text, share) => {
    const parsed = strength(text);
    expect(parsed.ok && parsed.value).toBeCloseTo(share, 12);
  });

  it("shows both readings of a proof with no country, and guesses neither", () => {
    const message = messageOf(strength("40 proof"));
    expect(message).toMatch(/^“Proof” alone is not one scale/);
    expect(message).toContain("20 % vol");
    expect(message).toContain("about 23 % vol");
  });

  it("shows both readings of “% proof”, and guesses neither", () => {
    const message = messageOf(strength("40 % proof"));
    expect(message).toContain("40 % vol");
    expect(message).toContain("40 US proof");
    expect(message).toContain("20 % vol");
    expect(strength("40 % US proof").ok).toBe(false);
  });

  it.each(["40 Sikes proof", "40 Russian proof", "40 proof (UK)", "40 °proof"])(
    "does not take “%s” for US proof",
    (text) => {
      expect(strength(text).ok).toBe(false);
    },
  );

  it.each(["1,234.5", "1.234,5", "1,234,567.5", "1.234.567,5"])(
    "refuses two kinds of decimal mark in “%s”, and offers the number without",
    (text) => {
      const plain = /([\d.]+)\.$/.exec(messageOf(mass(text)))?.[1];
      expect(["1234.5", "1234567.5"]).toContain(plain);
    },
  );

  it.each([
    ["", /^Type a number/],
    ["   ", /^Type a number/],
    ["\u00a0", /^Type a number/],
    ["abc", /not a number/],
    ["g", /not a number/],
    ["-", /not a number/],
    ["--5", /not a number/],
    ["NaN", /not a number/],
    ["Infinity", /not a number/],
    ["1.2.3", /more than one decimal mark/],
    ["1,234,567", /more than one decimal mark/],
    ["12 5", /two numbers/],
    ["1234 567", /two numbers/],
    ["5e3 1", /“1” is not a unit for this/],
    ["1e999", /too large/],
    ["12 °C", /“°C” is not a unit for this/],
    ["12 furlongs", /not a unit for this/],
    ["12 constructor", /not a unit for this/],
    ["5 g 3", /not a unit for this/],
    ["0x10", /not a unit for this/],
  ])("refuses “%s” with what to type", (text, message) => {
    const parsed = mass(text);
    expect(parsed.ok).toBe(false);
    expect(messageOf(parsed)).toMatch(message);
    expect(messageOf(parsed)).not.toMatch(/invalid|please|error/i);
  });

  it("gives an example that fits the field", () => {
    expect(messageOf(mass(""))).toBe("Type a number, for example 12.5.");
    expect(messageOf(strength(""))).toBe("Type a number, for example 40.");
  });

  it("names the units that it offers, or that there are none", () => {
    expect(messageOf(mass("1e3 furlongs"))).toBe(
      "“furlongs” is not a unit for this. Use g, kg, oz.",
    );
    expect(messageOf(parse("5 g", "fraction", ["1", "%"], "%"))).toMatch(/Use %\.$/);
    expect(messageOf(parse("5 g", "count", ["1"], "1"))).toBe(
      "Type the number alone, without “g”.",
    );
  });

  it("repeats a long text only by its beginning", () => {
    expect(messageOf(mass("x".repeat(24)))).toContain(`“${"x".repeat(24)}”`);
    expect(messageOf(mass("x".repeat(25)))).toContain(`“${"x".repeat(23)}…”`);
  });

  it("reads three digits after one mark as decimals, as it does any other number", () => {
    // A field cannot know the country; "1,250" is 1.25 and the result beside it shows so.
    const parsed = mass("1,250");
    expect(parsed.ok && parsed.value).toBeCloseTo(0.00125, 12);
  });

  it("reads every symbol and every alias of every unit", () => {
    for (const dimension of Object.keys(UNITS) as Dimension[])
      for (const id of Object.keys(UNITS[dimension])) {
        const { symbol, aliases = [] } = unitOf(dimension, id);
        for (const spelling of [symbol, ...aliases]) {
          if (spelling === "") continue;
          const parsed = parse(`2 ${spelling}`, dimension, [id], id);
          expect(parsed, `2 ${spelling}`).toMatchObject({ ok: true, unit: id });
        }
      }
  });

  it("reads back what a field is filled with, to ten digits", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.constantFrom("g", "kg", "oz", "mg", "lb"),
        (x, unit) => {
          const parsed = parse(formatField(x, "mass", unit), "mass", [unit], unit);
          expect(parsed.ok).toBe(true);
          if (parsed.ok) expect(Math.abs(parsed.value - x)).toBeLessThanOrEqual(1e-9 * Math.abs(x));
        },
      ),
      { seed: 2, numRuns: 500 },
    );
  });

  it("never throws and never gives a number that is not finite, whatever is typed", () => {
    const characters = [..."0123456789.,'eE+-−%° gkC\u00a0\u202fproofUSxN∞½"];
    const text = fc.oneof(
      fc.string({ unit: fc.constantFrom(...characters), maxLength: 12 }),
      fc.string({ maxLength: 40 }),
    );
    const dimension = fc.constantFrom(...(Object.keys(UNITS) as Dimension[]));
    fc.assert(
      fc.property(text, dimension, (typed, kind) => {
        const units = Object.keys(UNITS[kind]);
        const parsed = parse(typed, kind, units, units[0]!);
        if (parsed.ok) {
          expect(Number.isFinite(parsed.value)).toBe(true);
          expect(units).toContain(parsed.unit);
        } else {
          expect(parsed.message).toMatch(/\.$/);
          expect(parsed.message).not.toMatch(/undefined|NaN/);
        }
      }),
      { seed: 3, numRuns: 5000 },
    );
  });
});
