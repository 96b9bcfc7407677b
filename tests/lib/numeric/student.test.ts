import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { studentFactor } from "../../../lib/numeric/student.ts";

describe("studentFactor(degreesOfFreedom, coverage)", () => {
  // Student's distribution, evaluated apart. computed
  it.each([
    [2, 4.3026527],
    [4, 2.7764451],
    [12, 2.1788128],
  ])("of %d degrees of freedom is %d", (degreesOfFreedom, value) => {
    expect(Math.abs(studentFactor(degreesOfFreedom) - value)).toBeLessThan(6e-8);
  });

  it("agrees with printed tables for odd numbers too", () => {
    // Abramowitz & Stegun (1964), Table 26.10, A = 0.95 and 0.99. memory
    const table = { 1: [12.706, 63.657], 3: [3.182, 5.841], 5: [2.571, 4.032], 15: [2.131, 2.947] };
    for (const [degreesOfFreedom, [at95, at99]] of Object.entries(table)) {
      expect(Math.abs(studentFactor(Number(degreesOfFreedom)) - Number(at95))).toBeLessThan(6e-4);
      expect(Math.abs(studentFactor(Number(degreesOfFreedom), 0.99) - Number(at99))).toBeLessThan(
        6e-4,
      );
    }
  });

  it("falls towards the normal distribution's", () => {
    // Quantile of the normal distribution at 0.975: 1.959964. memory
    expect(studentFactor(10_000)).toBeCloseTo(1.95996 + 2.372 / 10_000, 5);
    for (let k = 1; k < 40; k++) expect(studentFactor(k + 1)).toBeLessThan(studentFactor(k));
  });

  it("is 0 for no coverage", () => {
    expect(studentFactor(5, 0)).toBe(0);
  });

  it.each([0, -1, 10_001, Number.NaN])("refuses %d degrees of freedom", (degreesOfFreedom) => {
    expect(() => studentFactor(degreesOfFreedom)).toThrow(OutOfRangeError);
  });

  it("refuses degrees of freedom that are not whole", () => {
    expect(() => studentFactor(2.5)).toThrow(TypeError);
  });

  it.each([-0.1, 1, Number.NaN])("refuses a coverage of %d", (coverage) => {
    expect(() => studentFactor(5, coverage)).toThrow(OutOfRangeError);
  });
});
