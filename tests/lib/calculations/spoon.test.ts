import { describe, expect, it } from "vitest";
import { refusalsOf, valuesOf } from "../../helpers/calculations.ts";

describe("spoon", () => {
  it("holds volume times bulk density, least and most", () => {
    const values = valuesOf("spoon", {
      spoonVolume: 5e-6,
      bulkDensityLow: 500,
      bulkDensityHigh: 900,
    });
    expect(values["massLow"]).toBeCloseTo(2.5e-3, 12);
    expect(values["massHigh"]).toBeCloseTo(4.5e-3, 12);
    expect(values["relativeError"]).toBeCloseTo(2 / 7, 12);
  });

  it("is as far off in a large spoon as in a small one", () => {
    const small = valuesOf("spoon", { spoonVolume: 5e-6 });
    const large = valuesOf("spoon", { spoonVolume: 15e-6 });
    expect(large["massHigh"]! / small["massHigh"]!).toBeCloseTo(3, 12);
    expect(large["relativeError"]).toBe(small["relativeError"]);
  });

  it("is exact where the powder has one density", () => {
    const one = valuesOf("spoon", { bulkDensityLow: 700, bulkDensityHigh: 700 });
    expect(one["relativeError"]).toBe(0);
  });

  it("refuses a loose powder denser than the settled one", () => {
    const refused = refusalsOf("spoon", { bulkDensityLow: 901, bulkDensityHigh: 900 });
    expect(refused.map(({ input }) => input)).toEqual(["bulkDensityLow"]);
  });
});
