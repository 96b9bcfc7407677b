import { describe, expect, it } from "vitest";
import {
  FitError,
  leastSquares,
  straightLine,
  type Model,
} from "../../../lib/numeric/least-squares.ts";
import { normalDraws } from "../../../lib/numeric/sampling.ts";

/** NIST Statistical Reference Datasets, linear regression, Norris: x, y. seen (in a library's test) */
const NORRIS = [
  [0.2, 0.1],
  [337.4, 338.8],
  [118.2, 118.1],
  [884.6, 888.0],
  [10.1, 9.2],
  [226.5, 228.1],
  [666.3, 668.5],
  [996.3, 998.5],
  [448.6, 449.1],
  [777.0, 778.9],
  [558.2, 559.2],
  [0.4, 0.3],
  [0.6, 0.1],
  [775.5, 778.1],
  [666.9, 668.8],
  [338.0, 339.3],
  [447.5, 448.9],
  [11.6, 10.8],
  [556.0, 557.7],
  [228.1, 228.3],
  [995.8, 998.0],
  [887.6, 888.8],
  [120.2, 119.6],
  [0.3, 0.3],
  [0.3, 0.6],
  [556.8, 557.6],
  [339.1, 339.3],
  [887.2, 888.0],
  [999.0, 998.5],
  [779.0, 778.9],
  [11.1, 10.2],
  [118.3, 117.6],
  [229.2, 228.9],
  [669.1, 668.4],
  [448.9, 449.2],
  [0.5, 0.2],
] as const;

/** NIST Statistical Reference Datasets, nonlinear regression, Misra1a and DanWood. seen (certified files) */
const MISRA: readonly (readonly [number, number])[] = [
  [77.6, 10.07],
  [114.9, 14.73],
  [141.1, 17.94],
  [190.8, 23.93],
  [239.9, 29.61],
  [289.0, 35.18],
  [332.8, 40.02],
  [378.4, 44.82],
  [434.8, 50.76],
  [477.3, 55.05],
  [536.8, 61.01],
  [593.1, 66.4],
  [689.1, 75.47],
  [760.0, 81.78],
];
const DANWOOD: readonly (readonly [number, number])[] = [
  [1.309, 2.138],
  [1.471, 3.421],
  [1.49, 3.597],
  [1.565, 4.34],
  [1.611, 4.882],
  [1.68, 5.66],
];

const saturating: Model =
  ([a, b]) =>
  (x) =>
    Number(a) * (1 - Math.exp(-Number(b) * x));
const power: Model =
  ([a, b]) =>
  (x) =>
    Number(a) * x ** Number(b);
const line: Model =
  ([a, b]) =>
  (x) =>
    Number(a) + Number(b) * x;

function reason(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof FitError) return error.reason;
    throw error;
  }
  throw new Error("nothing was refused");
}

function relative(found: number | undefined, certified: number): number {
  return Math.abs((found ?? Number.NaN) / certified - 1);
}

describe("leastSquares(model, readings, start, options)", () => {
  // Certified values as printed, to 11 digits. seen
  it.each([
    ["Misra1a, far start", saturating, MISRA, [500, 0.0001]],
    ["Misra1a, near start", saturating, MISRA, [250, 0.0005]],
    ["DanWood, far start", power, DANWOOD, [1, 5]],
    ["DanWood, near start", power, DANWOOD, [0.7, 4]],
  ] as const)("reaches the certified values of %s", (name, model, readings, start) => {
    const certified = name.startsWith("Misra")
      ? {
          parameters: [238.94212918, 0.00055015643181],
          errors: [2.7070075241, 7.2668688436e-6],
          sd: 0.1018787633,
          degreesOfFreedom: 12,
        }
      : {
          parameters: [0.76886226176, 3.8604055871],
          errors: [0.01828197386, 0.051726610913],
          sd: 0.032853114039,
          degreesOfFreedom: 4,
        };
    const fit = leastSquares(model, readings, start);
    for (const [i, value] of certified.parameters.entries())
      expect(relative(fit.parameters[i], value)).toBeLessThan(1e-8);
    for (const [i, value] of certified.errors.entries())
      expect(relative(fit.standardErrors[i], value)).toBeLessThan(1e-7);
    expect(relative(fit.residualSd, certified.sd)).toBeLessThan(1e-9);
    expect(fit.degreesOfFreedom).toBe(certified.degreesOfFreedom);
  });

  it("agrees with the closed form for a straight line, correlation included", () => {
    const fit = leastSquares(line, NORRIS, [1, 1]);
    const closed = straightLine(
      NORRIS.map(([x]) => x),
      NORRIS.map(([, y]) => y),
    );
    expect(relative(fit.parameters[0], closed.intercept)).toBeLessThan(1e-8);
    expect(relative(fit.parameters[1], closed.slope)).toBeLessThan(1e-9);
    expect(relative(fit.standardErrors[0], closed.interceptError)).toBeLessThan(1e-8);
    expect(relative(fit.standardErrors[1], closed.slopeError)).toBeLessThan(1e-8);
    const correlation = closed.covariance / (closed.slopeError * closed.interceptError);
    expect(relative(fit.correlations[0]?.[1], correlation)).toBeLessThan(1e-8);
    expect(fit.correlations[1]?.[1]).toBeCloseTo(1, 12);
  });

  it("does not mind the units", () => {
    const fit = leastSquares(saturating, MISRA, [250, 0.0005]);
    const other = leastSquares(
      saturating,
      MISRA.map(([x, y]) => [x / 3600, 1000 * y] as const),
      [250_000, 0.0005 * 3600],
    );
    expect(relative(other.parameters[0], 1000 * Number(fit.parameters[0]))).toBeLessThan(1e-8);
    expect(relative(other.standardErrors[1], 3600 * Number(fit.standardErrors[1]))).toBeLessThan(
      1e-7,
    );
  });

  it("finds the curve that exact readings were made from", () => {
    const readings = [1, 2, 3, 5, 8].map((x) => [x, 3 * (1 - Math.exp(-0.2 * x))] as const);
    // The second start sends the first steps where the curve has no value.
    for (const start of [
      [1, 1],
      [0.1, 3],
      [30, 0.01],
    ]) {
      const fit = leastSquares(saturating, readings, start);
      expect(fit.parameters[0]).toBeCloseTo(3, 9);
      expect(fit.parameters[1]).toBeCloseTo(0.2, 10);
      expect(fit.residualSd).toBeLessThan(1e-9);
    }
  });

  it("misses the truth by more than two standard errors about one time in twenty", () => {
    const draw = normalDraws(7);
    let missed = 0;
    for (let i = 0; i < 400; i++) {
      const readings = Array.from({ length: 40 }, (_, k) => {
        const x = (k + 1) / 8;
        return [x, 3 * (1 - Math.exp(-0.5 * x)) + 0.05 * draw()] as const;
      });
      const fit = leastSquares(saturating, readings, [2, 1]);
      if (Math.abs(Number(fit.parameters[1]) - 0.5) > 2 * Number(fit.standardErrors[1])) missed++;
    }
    expect(missed).toBeGreaterThan(8);
    expect(missed).toBeLessThan(36);
  });

  it("keeps to its limits, and answers where the best fit lies inside them", () => {
    const fit = leastSquares(saturating, MISRA, [500, 0.0001], { low: [1, 1e-6], high: [1000, 1] });
    expect(relative(fit.parameters[0], 238.94212918)).toBeLessThan(1e-8);
    expect(reason(() => leastSquares(saturating, MISRA, [150, 0.001], { high: [200, 1] }))).toBe(
      "at-limit",
    );
    expect(reason(() => leastSquares(saturating, MISRA, [300, 5e-4], { low: [250, 1e-6] }))).toBe(
      "at-limit",
    );
  });

  it("finds within its limits what it would run past", () => {
    // From a rate this high the first step goes to a negative one, where the curve is far from all readings.
    const readings = [1, 2, 3, 5, 8].map((x) => [x, 3 * (1 - Math.exp(-0.2 * x))] as const);
    expect(reason(() => leastSquares(saturating, readings, [1, 20]))).toBe("no-convergence");
    const above = leastSquares(saturating, readings, [1, 20], { low: [0, 0] });
    expect(above.parameters[1]).toBeCloseTo(0.2, 9);
    const mirrored: Model = ([a, b]) => saturating([Number(a), -Number(b)]);
    const below = leastSquares(mirrored, readings, [1, -20], { high: [100, 0] });
    expect(below.parameters[1]).toBeCloseTo(-0.2, 9);
  });

  it("refuses as many readings as parameters", () => {
    expect(reason(() => leastSquares(line, NORRIS.slice(0, 2), [0, 1]))).toBe("too-few");
    expect(leastSquares(line, NORRIS.slice(0, 3), [0, 1]).degreesOfFreedom).toBe(1);
  });

  it("refuses parameters that the readings cannot tell apart", () => {
    const product: Model =
      ([a, b]) =>
      (x) =>
        Number(a) * Number(b) * x;
    expect(reason(() => leastSquares(product, NORRIS, [1, 1]))).toBe("singular");
    const unused: Model =
      ([a]) =>
      (x) =>
        Number(a) * x;
    expect(reason(() => leastSquares(unused, NORRIS, [1, 1]))).toBe("singular");
  });

  it("refuses a model without a minimum", () => {
    const runaway: Model =
      ([a]) =>
      (x) =>
        Math.exp(-Number(a) * x);
    const rising = [1, 2, 3].map((x) => [x, 0] as const);
    expect(["no-convergence", "singular"]).toContain(
      reason(() => leastSquares(runaway, rising, [1])),
    );
  });

  it.each([Number.NaN, Infinity])("refuses a reading, a start or a value of %d", (bad) => {
    const readings = [...DANWOOD.slice(1), [1, bad] as const];
    expect(reason(() => leastSquares(power, readings, [1, 5]))).toBe("not-finite");
    expect(reason(() => leastSquares(power, DANWOOD, [bad, 5]))).toBe("not-finite");
    expect(reason(() => leastSquares(() => () => bad, DANWOOD, [1, 5]))).toBe("not-finite");
  });

  it("refuses one value that is not finite among many, and such a start under a finite curve", () => {
    const logarithm: Model =
      ([a]) =>
      (x) =>
        Number(a) * Math.log(x);
    const readings = [...DANWOOD, [0, 1] as const];
    expect(reason(() => leastSquares(logarithm, readings, [1]))).toBe("not-finite");
    expect(reason(() => leastSquares(saturating, DANWOOD, [1, Infinity]))).toBe("not-finite");
  });
});

describe("straightLine(x, y)", () => {
  const x = NORRIS.map(([value]) => value);
  const y = NORRIS.map(([, value]) => value);

  it("agrees with the certified line", () => {
    // NIST Statistical Reference Datasets, Norris, 15 digits; the covariance from a library's test. seen
    const fit = straightLine(x, y);
    expect(relative(fit.intercept, -0.262323073774029)).toBeLessThan(1e-11);
    expect(relative(fit.slope, 1.00211681802045)).toBeLessThan(1e-13);
    expect(relative(fit.interceptError, 0.232818234301152)).toBeLessThan(1e-11);
    expect(relative(fit.slopeError, 0.000429796848199937)).toBeLessThan(1e-11);
    expect(relative(fit.residualSd, 0.884796396144373)).toBeLessThan(1e-11);
    // 14 digits, but not certified.
    expect(relative(fit.covariance, -7.7432753633957e-5)).toBeLessThan(1e-10);
    expect(fit.degreesOfFreedom).toBe(34);
  });

  it("keeps its digits far from zero", () => {
    const far = straightLine(
      x.map((value) => value + 1e7),
      y,
    );
    expect(relative(far.slope, 1.00211681802045)).toBeLessThan(1e-11);
    expect(relative(far.slopeError, 0.000429796848199937)).toBeLessThan(1e-9);
  });

  it("has no error on a line", () => {
    expect(straightLine([0, 1, 2], [5, 7, 9])).toMatchObject({
      slope: 2,
      intercept: 5,
      slopeError: 0,
    });
  });

  it("refuses two readings, one x, a value that is no number, and lists of two lengths", () => {
    expect(reason(() => straightLine([0, 1], [0, 1]))).toBe("too-few");
    expect(reason(() => straightLine([3, 3, 3], [0, 1, 2]))).toBe("singular");
    expect(reason(() => straightLine([0, 1, Number.NaN], [0, 1, 2]))).toBe("not-finite");
    expect(reason(() => straightLine([0, 1, 2], [0, 1, Infinity]))).toBe("not-finite");
    expect(() => straightLine([0, 1, 2], [0, 1])).toThrow(TypeError);
  });
});
