import { describe, expect, it } from "vitest";
import { cautionsOf, evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BATCH = {
  vesselMass: 0.2,
  "hang.contentsMass": 0.3,
  "hang.beakers": 1,
  "hang.contentsDensity": 1000,
  vesselDiameter: 0.09,
  vesselHeight: 0.126,
  wallThickness: 0.0013,
  baseThickness: 0.002,
  immersion: 0.06,
  bathDensity: 997.05,
};
const with_ = (moved: object) => ({ ...BATCH, ...moved });

describe("hang", () => {
  it("has nothing left to carry where it says that it lifts off", () => {
    const { immersionToFloat } = valuesOf("hang", BATCH);
    expect(valuesOf("hang", with_({ immersion: immersionToFloat }))["netForce"]).toBeCloseTo(0, 12);
    const at = (by: number) =>
      valuesOf("hang", with_({ immersion: immersionToFloat! + by }))["floats"];
    expect(at(-1e-9)).toBe(0);
    expect(at(1e-9)).toBe(1);
  });

  it("stays down with the least contents, and lifts off with less", () => {
    const { leastContents } = valuesOf("hang", BATCH);
    const at = (by: number) =>
      valuesOf("hang", with_({ "hang.contentsMass": leastContents! + by }))["floats"];
    expect(at(1e-9)).toBe(0);
    expect(at(-1e-9)).toBe(1);
  });

  it("starts from the recipe’s batch, shared out over its beakers", () => {
    const recipe = valuesOf("recipe", { batchVolume: 2e-3 });
    const { hungMass, filling } = valuesOf("hang", { batchVolume: 2e-3 });
    expect(recipe["beakers"]).toBeGreaterThan(1);
    expect(filling).toBeCloseTo(recipe["totalMass"]! / recipe["beakers"]!, 12);
    expect(hungMass).toBeCloseTo(filling! + 0.3, 12);
  });

  it("says none of floating where the beaker would sink", () => {
    const heavy = valuesOf("hang", with_({ vesselMass: 0.9 }));
    expect(heavy).not.toHaveProperty("immersionToFloat");
    expect(heavy).not.toHaveProperty("metacentricHeight");
    expect(heavy["floats"]).toBe(0);
  });

  it("says how far the levels are apart", () => {
    const { insideLevel } = valuesOf("hang", BATCH);
    const level = valuesOf("hang", with_({ immersion: insideLevel }));
    expect(level["levelDifference"]).toBeCloseTo(0, 12);
    expect(valuesOf("hang", with_({ immersion: 0.04 }))["levelDifference"]).toBeCloseTo(
      insideLevel! - 0.04,
      12,
    );
  });

  it.each([
    ["vesselMass", { vesselMass: 0 }, /Weigh the empty beaker/],
    ["immersion", { immersion: 0.13 }, /bath would run in/],
    ["contentsMass", { "hang.contentsMass": 0.8 }, /does not go into/],
    ["vesselDiameter", { vesselDiameter: 0 }, /must be/],
    ["immersion", { immersion: -0.01 }, /must be/],
  ])("refuses %s in plain words: %o", (input, moved, says) => {
    const refusals = refusalsOf("hang", with_(moved));
    expect(refusals.map((refusal) => refusal.input)).toEqual([input]);
    expect(refusals[0]?.says).toMatch(says);
  });

  it("speaks up as soon as the band allows a lift, and not before", () => {
    const low = (immersion: number) =>
      evaluated("hang", with_({ immersion })).values["netForce"]!.low;
    let [hangs, lifts] = [0.06, 0.0788];
    for (let i = 0; i < 60; i++) {
      const middle = (hangs + lifts) / 2;
      if (low(middle) < 0) lifts = middle;
      else hangs = middle;
    }
    expect(lifts).toBeLessThan(valuesOf("hang", BATCH)["immersionToFloat"]!);
    expect(cautionsOf("hang", with_({ immersion: hangs }))).toEqual([]);
    expect(cautionsOf("hang", with_({ immersion: lifts }))).toEqual(["bath"]);
  });
});
