import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { naturalSpline } from "../../../lib/numeric/interpolate.ts";

describe("naturalSpline(points)", () => {
  it("agrees with the spline worked out by hand for three points", () => {
    // Through (0, 0), (1, 1), (2, 0): curvature −3 in the middle, so 0.5 lies at 1.5/2 − 0.5/8 = 0.6875.
    const spline = naturalSpline([
      [0, 0],
      [1, 1],
      [2, 0],
    ]);
    expect(spline(0.5)).toBeCloseTo(0.6875, 14);
    expect(spline(1.5)).toBeCloseTo(0.6875, 14);
  });

  it("agrees with a textbook's spline through four points of the exponential", () => {
    // Burden & Faires, Numerical Analysis, section 3.5: eˣ at 0, 1, 2, 3, five decimals. memory
    const spline = naturalSpline([0, 1, 2, 3].map((x) => [x, Math.exp(x)] as const));
    for (const h of [0.25, 0.5, 0.75]) {
      expect(spline(h)).toBeCloseTo(1 + 1.466 * h + 0.25228 * h ** 3, 4);
      const middle = 2.71828 + 2.22285 * h + 0.75685 * h ** 2 + 1.69107 * h ** 3;
      expect(spline(1 + h)).toBeCloseTo(middle, 4);
      const last = 7.38906 + 8.80977 * h + 5.83007 * h ** 2 - 1.94336 * h ** 3;
      expect(spline(2 + h)).toBeCloseTo(last, 4);
    }
  });

  it("passes through every point", () => {
    const points = [
      [0, 3],
      [0.1, -1],
      [0.5, 4],
      [2, 4.5],
      [7, -2],
    ] as const;
    const spline = naturalSpline(points);
    for (const [x, y] of points) expect(spline(x)).toBeCloseTo(y, 13);
  });

  it("is straight through points on a line, and through two points", () => {
    expect(
      naturalSpline([
        [0, 1],
        [1, 3],
        [4, 9],
      ])(2.5),
    ).toBeCloseTo(6, 13);
    expect(
      naturalSpline([
        [0, 1],
        [2, 5],
      ])(0.5),
    ).toBeCloseTo(2, 14);
  });

  it("joins its pieces with one slope and one curvature", () => {
    const spline = naturalSpline([
      [0, 0],
      [1, 2],
      [3, 1],
      [4, 5],
    ]);
    const h = 1e-4;
    const bend = (x: number) => (spline(x - h) - 2 * spline(x) + spline(x + h)) / h ** 2;
    expect((spline(1) - spline(1 - h)) / h).toBeCloseTo((spline(1 + h) - spline(1)) / h, 2);
    expect(bend(1 - 2 * h)).toBeCloseTo(bend(1 + 2 * h), 1);
    expect(bend(2 * h)).toBeCloseTo(0, 1);
  });

  it.each([0.999, 3.001, Number.NaN, Infinity])("refuses x = %d outside its points", (x) => {
    const spline = naturalSpline([
      [1, 0],
      [3, 1],
    ]);
    expect(() => spline(x)).toThrow(OutOfRangeError);
  });

  it.each([
    ["one point", [[0, 0]]],
    [
      "x that does not increase",
      [
        [0, 0],
        [0, 1],
      ],
    ],
    [
      "a value that is not finite",
      [
        [0, 0],
        [1, Number.NaN],
      ],
    ],
    [
      "a gap wider than any number",
      [
        [-1e308, 0],
        [1e308, 1],
      ],
    ],
    [
      "a rise higher than any number",
      [
        [0, -1e308],
        [1, 1e308],
      ],
    ],
  ] as [string, [number, number][]][])("refuses %s", (_, points) => {
    expect(() => naturalSpline(points)).toThrow(TypeError);
  });

  it("says that one point is too few", () => {
    expect(() => naturalSpline([[0, 0]])).toThrow("a spline needs two points, got 1");
  });
});
