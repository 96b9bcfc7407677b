import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  decimalsFor,
  decimalsOf,
  formatAmount,
  formatDecimals,
  formatField,
  formatNumber,
  formatTrimmed,
  withUnit,
} from "../../../lib/units/format.ts";

describe("formatNumber(value, digits)", () => {
  it.each([
    [0, 4, "0"],
    [-0, 4, "0"],
    [1, 3, "1.00"],
    [12.345, 3, "12.3"],
    [0.00012345, 2, "0.00012"],
    [999.96, 4, "1000"],
    [1234.5, 3, "1230"],
    [9999, 4, "9999"],
    [10_000, 5, "10\u202f000"],
    [1_234_567.8, 9, "1\u202f234\u202f567.80"],
    [-12.5, 3, "\u221212.5"],
    [-12_345, 5, "\u221212\u202f345"],
    [1e-9, 2, "0.0000000010"],
  ])("writes %d with %d digits as “%s”", (value, digits, text) => {
    expect(formatNumber(value, digits)).toBe(text);
  });

  it("never falls into powers of ten for any size that a batch can have", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e15, max: 1e15, noNaN: true }),
        fc.integer({ min: 1, max: 10 }),
        (x, digits) => {
          expect(formatNumber(x, digits)).toMatch(/^\u2212?\d{1,4}(\u202f?\d{3})*(\.\d+)?$/);
        },
      ),
      { seed: 4, numRuns: 500 },
    );
  });
});

describe("formatTrimmed(value, digits)", () => {
  it.each([
    [250, 4, "250"],
    [12.5, 4, "12.5"],
    [1.04, 2, "1"],
    [100, 1, "100"],
    [-0.5, 3, "\u22120.5"],
    [20_000, 3, "20\u202f000"],
  ])("writes %d with at most %d digits as “%s”", (value, digits, text) => {
    expect(formatTrimmed(value, digits)).toBe(text);
  });
});

describe("formatDecimals(value, decimals)", () => {
  it.each([
    [1.005, 1, "1.0"],
    [-0.001, 2, "0.00"],
    [-0.001, 0, "0"],
    [-0.5, 1, "\u22120.5"],
    [-1.5, 1, "\u22121.5"],
    [12_345.678, 2, "12\u202f345.68"],
    [1234.5, 1, "1234.5"],
  ])("writes %d with %d decimals as “%s”", (value, decimals, text) => {
    expect(formatDecimals(value, decimals)).toBe(text);
  });
});

describe("formatField(value, dimension, unit)", () => {
  it("writes what a field reads: no grouping, no unit, a plain hyphen for minus", () => {
    expect(formatField(12.3456, "mass", "g")).toBe("12345.6");
    expect(formatField(-5, "temperature", "°C")).toBe("-5");
    expect(formatField(0.3, "strength", "% vol")).toBe("30");
    expect(formatField(0.1 + 0.2, "strength", "% vol")).toBe("30");
  });
});

describe("formatAmount(value, dimension, unit, digits)", () => {
  it.each([
    [0.25e-3, "volume", "mL", "250\u00a0mL"],
    [0.148, "strength", "% vol", "14.8\u00a0%\u00a0vol"],
    [20, "temperature", "°F", "68\u00a0°F"],
    [-5, "temperature", "°C", "\u22125\u00a0°C"],
    [0.5, "fraction", "1", "0.5"],
    [80, "proof", "1", "80°"],
  ] as const)("writes %d as %s in %s: “%s”", (value, dimension, unit, text) => {
    expect(formatAmount(value, dimension, unit, 4)).toBe(text);
  });
});

describe("withUnit(number, dimension, unit)", () => {
  it("keeps number and unit on one line", () => {
    expect(withUnit("12", "volume", "fl oz")).toBe("12\u00a0fl\u00a0oz");
  });
});

describe("decimalsFor(halfWidth)", () => {
  it.each([
    [0.12, 2],
    [0.25, 2],
    [0.3, 1],
    [0.9, 1],
    [1.2, 1],
    [3, 0],
    [12, 0],
    [250, 0],
    [0.0012, 4],
    [0.004, 3],
  ])("gives a half-width of %d as many as %d decimals", (half, decimals) => {
    expect(decimalsFor(half)).toBe(decimals);
  });
});

describe("decimalsOf(number)", () => {
  it.each([
    ["12", 0],
    ["12.", 0],
    ["0.50", 2],
    [formatDecimals(-12345.678, 1), 1],
  ])("counts those of %s", (text, decimals) => {
    expect(decimalsOf(text)).toBe(decimals);
  });
});
