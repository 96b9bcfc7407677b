import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { brent, newtonBracketed, NoBracketError } from "../../../lib/numeric/root.ts";

type WithSlope = (x: number) => readonly [number, number];

const cubic: WithSlope = (x) => [x ** 3 - 2 * x - 5, 3 * x ** 2 - 2];
/** Newton alone runs away from any start beyond ±1.39. */
const arctangent: WithSlope = (x) => [Math.atan(x), 1 / (1 + x * x)];

describe("newtonBracketed(f, low, high, tolerance)", () => {
  it("solves Wallis's cubic", () => {
    // OEIS A007493, real root of x³ − 2x − 5, the example of Wallis (1685): 2.09455148154232659. memory
    expect(newtonBracketed(cubic, 2, 3, 1e-14)).toBeCloseTo(2.0945514815423265, 13);
  });

  it("finds the same root from either side and any start", () => {
    for (const guess of [2, 2.1, 2.9, 3, -50, Number.NaN])
      expect(newtonBracketed(cubic, 3, 2, 1e-14, guess)).toBeCloseTo(2.0945514815423265, 13);
  });

  it("converges where Newton alone runs away", () => {
    expect(newtonBracketed(arctangent, -50, 90, 1e-13, 80)).toBeCloseTo(0, 12);
  });

  it("bisects where the slope is zero", () => {
    expect(newtonBracketed((x) => [x ** 3 - 1, 3 * x ** 2], -1, 4, 1e-13, 0)).toBeCloseTo(1, 12);
    expect(newtonBracketed((x) => [x - 0.3, 0], 0, 1, 1e-13)).toBeCloseTo(0.3, 12);
  });

  it("gives all digits for a tolerance of 0", () => {
    const root = newtonBracketed((x) => [x * x - 2, 2 * x], 0, 2, 0);
    expect(Math.abs(root - Math.SQRT2)).toBeLessThanOrEqual(2 ** -52);
  });

  it("returns an end that is a root exactly", () => {
    expect(newtonBracketed((x) => [x, 1], 0, 1, 0.1)).toBe(0);
    expect(newtonBracketed((x) => [x - 1, 1], 0, 1, 0.1)).toBe(1);
  });

  it.each([
    [3, 4],
    [0, 1],
    [Number.NaN, 3],
    [2, Infinity],
  ])("refuses ends %d and %d that bracket nothing", (low, high) => {
    expect(() => newtonBracketed(cubic, low, high, 1e-9)).toThrow(NoBracketError);
  });

  it.each([-1e-9, Number.NaN])("refuses a tolerance of %d", (tolerance) => {
    expect(() => newtonBracketed(cubic, 2, 3, tolerance)).toThrow(OutOfRangeError);
  });

  it("refuses a function with no value inside", () => {
    const holed: WithSlope = (x) => [x === 0.5 ? Number.NaN : x - 0.4, 1];
    expect(() => newtonBracketed(holed, 0, 1, 1e-9)).toThrow(/no value at 0\.5/);
  });
});

describe("brent(f, low, high, tolerance)", () => {
  it("solves cos x = x", () => {
    // OEIS A003957, the Dottie number: 0.73908513321516064166. memory
    expect(brent((x) => Math.cos(x) - x, 0, 1, 1e-15)).toBeCloseTo(0.7390851332151607, 15);
  });

  it("agrees with newtonBracketed", () => {
    expect(brent((x) => cubic(x)[0], 3, 2, 1e-14)).toBeCloseTo(
      newtonBracketed(cubic, 2, 3, 1e-14),
      13,
    );
  });

  it.each([
    ["a steep power", (x: number) => x ** 9 - 1e-9, 0.1],
    ["an exponential", (x: number) => Math.exp(20 * x) - Math.exp(14), 0.7],
    ["a jump", (x: number) => (x < 0.3 ? -1 : 1), 0.3],
    ["a falling line", (x: number) => 0.25 - x, 0.25],
  ])("closes in on %s", (_, f, root) => {
    expect(brent(f, 0, 1, 1e-12)).toBeCloseTo(root, 11);
  });

  it("takes few steps for a smooth function", () => {
    let calls = 0;
    brent((x) => (calls++, Math.cos(x) - x), 0, 1, 1e-12);
    expect(calls).toBeLessThan(12);
  });

  it("finds a root at zero for a tolerance of 0", () => {
    expect(brent((x) => x * (x + 2), -1, 2, 0)).toBeCloseTo(0, 15);
  });

  it("returns an end that is a root exactly", () => {
    expect(brent((x) => x, 0, 1, 0.1)).toBe(0);
    expect(brent((x) => x - 1, 0, 1, 0.1)).toBe(1);
  });

  it("carries the facts when the ends bracket nothing", () => {
    let caught: unknown;
    try {
      brent((x) => x * x + 1, -1, 2, 1e-9);
    } catch (error) {
      caught = error;
    }
    expect(caught).toBeInstanceOf(NoBracketError);
    expect(caught).toMatchObject({ low: -1, high: 2, atLow: 2, atHigh: 5 });
  });

  it("refuses ends without a value", () => {
    expect(() => brent(Math.log, -1, 2, 1e-9)).toThrow(NoBracketError);
  });

  it.each([-1, Number.NaN])("refuses a tolerance of %d", (tolerance) => {
    expect(() => brent((x) => x - 0.5, 0, 1, tolerance)).toThrow(OutOfRangeError);
  });

  it("refuses a function with no value inside", () => {
    expect(() => brent((x) => (x > 0 && x < 1 ? Number.NaN : x - 0.4), 0, 1, 1e-9)).toThrow(
      /no value/,
    );
  });
});
