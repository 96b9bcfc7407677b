import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  portionCovariance,
  portionUncertainty,
  readingUncertainty,
  SCALE_LIMITS,
  shareUncertainty,
} from "../../../lib/laws/weighing.ts";
import { normalDraws } from "../../../lib/numeric/sampling.ts";

const SCALE = { readability: 1e-3, repeatability: 2e-3, linearity: 3e-3 };
const PERFECT = { readability: 0, repeatability: 0, linearity: 0 };
const WRONG = [-1e-9, 1.001, Number.NaN, Infinity];

describe("readingUncertainty(scale)", () => {
  it("is 0.29 of the display step where there is nothing else", () => {
    // JCGM 100:2008 (GUM) F.2.2.1: u = 0.29 δx for a resolution δx. seen
    const u = readingUncertainty({ ...PERFECT, readability: 1e-3 });
    expect(Math.abs(u / 1e-3 - 0.29)).toBeLessThanOrEqual(0.005);
  });

  it("makes 0.09 mg of a linearity of ± 0.15 mg", () => {
    // Eurachem/CITAC Guide CG 4, Example A2, weighing of the hydrogen phthalate. memory
    const u = readingUncertainty({ ...PERFECT, linearity: 0.15e-6 });
    expect(Math.abs(u * 1e6 - 0.09)).toBeLessThanOrEqual(0.005);
  });

  it("takes the repeatability as it is, and adds all in squares", () => {
    expect(readingUncertainty({ ...PERFECT, repeatability: 2e-3 })).toBe(2e-3);
    expect(readingUncertainty(SCALE) ** 2).toBeCloseTo(1e-6 / 12 + 4e-6 + 9e-6 / 3, 15);
  });

  it("answers at both ends of each range", () => {
    expect(readingUncertainty(PERFECT)).toBe(0);
    for (const name of ["readability", "repeatability", "linearity"] as const)
      expect(readingUncertainty({ ...PERFECT, [name]: SCALE_LIMITS[name].max })).toBeGreaterThan(0);
  });

  it.each(["readability", "repeatability", "linearity"] as const)("refuses a wrong %s", (name) => {
    for (const value of WRONG)
      expect(() => readingUncertainty({ ...SCALE, [name]: value })).toThrow(
        expect.objectContaining({ name: "OutOfRangeError", quantity: name }),
      );
  });
});

describe("portionUncertainty(scale)", () => {
  it("makes 0.13 mg of a linearity of ± 0.15 mg, counted for tare and for load", () => {
    // Eurachem/CITAC Guide CG 4, Example A2, weighing of the hydrogen phthalate. memory
    // The guide rounds 0.0866 to 0.09 before it doubles the square; unrounded it is 0.122.
    const u = portionUncertainty({ ...PERFECT, linearity: 0.15e-6 });
    expect(Math.abs(u * 1e6 - 0.13)).toBeLessThanOrEqual(0.01);
  });

  it("is √2 times that of a reading", () => {
    expect(portionUncertainty(SCALE) / readingUncertainty(SCALE)).toBeCloseTo(Math.SQRT2, 15);
  });

  it("refuses a wrong scale", () => {
    expect(() => portionUncertainty({ ...SCALE, linearity: -1 })).toThrow(OutOfRangeError);
  });
});

describe("portionCovariance(scale, count)", () => {
  it("has two readings on the diagonal, one shared beside it, none further off", () => {
    const u2 = readingUncertainty(SCALE) ** 2;
    expect(portionCovariance(SCALE, 3)).toEqual([
      [2 * u2, -u2, 0],
      [-u2, 2 * u2, -u2],
      [0, -u2, 2 * u2],
    ]);
  });

  it.each([1, 2, 4, 100])("leaves the sum of %d portions as sure as one alone", (count) => {
    // All that is left of the readings is the last and the first.
    const sum = portionCovariance(SCALE, count)
      .flat()
      .reduce((a, b) => a + b, 0);
    expect(sum / portionUncertainty(SCALE) ** 2).toBeCloseTo(1, 10);
  });

  it.each([0, 101, Number.NaN])("refuses %d portions", (count) => {
    expect(() => portionCovariance(SCALE, count)).toThrow(OutOfRangeError);
  });

  it("refuses a wrong scale", () => {
    expect(() => portionCovariance({ ...SCALE, readability: 2 }, 3)).toThrow(OutOfRangeError);
  });
});

describe("shareUncertainty(portions, covariance, index)", () => {
  const PORTIONS = [0.25, 0.12, 0.05, 0.03];

  it("agrees with the spread of shares from drawn readings", () => {
    const u = readingUncertainty({ ...PERFECT, repeatability: 1e-4 });
    const next = normalDraws(11);
    const draws = 20_000;
    const [sums, squares] = [
      [0, 0, 0, 0],
      [0, 0, 0, 0],
    ];
    for (let draw = 0; draw < draws; draw++) {
      const errors = Array.from({ length: 5 }, () => u * next());
      const got = PORTIONS.map((portion, i) => portion + errors[i + 1]! - errors[i]!);
      const total = got.reduce((a, b) => a + b, 0);
      for (const [i, portion] of got.entries()) {
        const logarithm = Math.log(portion / total / (PORTIONS[i]! / 0.45));
        sums[i]! += logarithm;
        squares[i]! += logarithm ** 2;
      }
    }
    const covariance = portionCovariance({ ...PERFECT, repeatability: 1e-4 }, 4);
    for (const i of PORTIONS.keys()) {
      const spread = Math.sqrt(squares[i]! / draws - (sums[i]! / draws) ** 2);
      // Four standard errors of a standard deviation: 4/√(2n) = 2 %.
      expect(spread / shareUncertainty(PORTIONS, covariance, i)).toBeGreaterThan(0.98);
      expect(spread / shareUncertainty(PORTIONS, covariance, i)).toBeLessThan(1.02);
    }
  });

  it("gives two halves the share's known spread", () => {
    // share = (R1 − R0)/(R2 − R0): slopes of ln share are −1/m, 2/m, −1/m at m1 = m2 = m/2.
    const u = readingUncertainty(SCALE);
    const relative = shareUncertainty([0.2, 0.2], portionCovariance(SCALE, 2), 0);
    expect(relative).toBeCloseTo((Math.sqrt(6) * u) / 0.4, 14);
  });

  it("is as sure of one part of two as of the other, in absolute terms", () => {
    const covariance = portionCovariance(SCALE, 2);
    const [a, b] = [0, 1].map((i) => shareUncertainty([0.1, 0.3], covariance, i));
    expect(a! * 0.25).toBeCloseTo(b! * 0.75, 14);
  });

  it("halves when every portion doubles", () => {
    const covariance = portionCovariance(SCALE, 4);
    const once = shareUncertainty(PORTIONS, covariance, 2);
    const twice = shareUncertainty(
      PORTIONS.map((portion) => 2 * portion),
      covariance,
      2,
    );
    expect(twice / once).toBeCloseTo(0.5, 12);
  });

  it("is nothing for a portion that is all there is", () => {
    expect(shareUncertainty([0.3], portionCovariance(SCALE, 1), 0)).toBeCloseTo(0, 15);
  });

  it.each([0, -0.1, 1000.1, Number.NaN])("refuses a portion of %d kg", (portion) => {
    const covariance = portionCovariance(SCALE, 2);
    expect(() => shareUncertainty([0.1, portion], covariance, 0)).toThrow(OutOfRangeError);
  });
});
