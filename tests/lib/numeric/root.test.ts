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

  it("asks only within its bracket", () => {
    // Newton overshoots the root of a cube root by twice the way to it.
    const steep: WithSlope = (x) => [Math.cbrt(x - 0.05), Math.cbrt(x - 0.05) ** -2 / 3];
    for (const [f, low, high] of [
      [cubic, 2, 3],
      [arctangent, -50, 90],
      [steep, 0, 1],
    ] as const) {
      for (const guess of [undefined, low - 100, low + 0.1, high - 1e-9, high + 100])
        newtonBracketed(
          (x) => {
            expect(x).toBeGreaterThanOrEqual(low);
            expect(x).toBeLessThanOrEqual(high);
            return f(x);
          },
          low,
          high,
          1e-13,
          guess,
        );
    }
  });

  it("takes Newton's own steps from a guess nearby", () => {
    const steps = [-3.5];
    const f: WithSlope = (x) => [x ** 2 - 10, 2 * x];
    for (let x = -3.5; Math.abs(x ** 2 - 10) > 1e-9; steps.push(x)) x -= f(x)[0] / f(x)[1];
    const asked: number[] = [];
    newtonBracketed((x) => (asked.push(x), f(x)), -12, 0, 1e-12, -3.5);
    // The ends of the bracket come first.
    expect(asked.slice(2, 2 + steps.length)).toEqual(steps);
    expect(asked.length).toBeLessThanOrEqual(2 + steps.length + 2);
  });

  it("bisects where Newton alone hardly moves", () => {
    // At a root of ninth order Newton takes off a ninth of the way each time: 235 steps to 1e-12.
    let asked = 0;
    newtonBracketed((x) => (asked++, [x ** 9, 9 * x ** 8]), -1, 2, 1e-12);
    expect(asked).toBeLessThan(100);
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

  it("is off by no more than its tolerance", () => {
    for (let jump = 0.005; jump < 1; jump += 0.01) {
      const found = brent((x) => (x < jump ? -1 : 1), 0, 1, 0.1);
      expect(Math.abs(found - jump)).toBeLessThanOrEqual(0.1);
    }
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

  // Evaluations that another implementation of the method takes, to a tolerance of 1e-12. computed
  it.each([
    ["cos x − x", (x: number) => Math.cos(x) - x, 0, 1, 8],
    ["Wallis's cubic", (x: number) => cubic(x)[0], 2, 3, 8],
    ["e⁻ˣ − x/20", (x: number) => Math.exp(-x) - 0.05 * x, 0, 5, 10],
    ["ln x − 0.3", (x: number) => Math.log(x) - 0.3, 0.1, 10, 11],
    ["x⁹ − 10⁻⁹", (x: number) => x ** 9 - 1e-9, 0, 1, 18],
    ["an arctangent", (x: number) => Math.atan(x - 1), -50, 90, 12],
    ["x eˣ − 1", (x: number) => x * Math.exp(x) - 1, -1, 1, 10],
    ["a curve near its pole", (x: number) => 1 / (x - 3) + 6, 0, 2.9999, 14],
    ["a root with an upright tangent", (x: number) => Math.cbrt(x - 0.3), 0, 1, 33],
  ])("takes no more steps for %s than the method has to", (_, f, low, high, evaluations) => {
    let calls = 0;
    brent((x) => (calls++, f(x)), low, high, 1e-12);
    expect(calls).toBeLessThanOrEqual(evaluations);
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
