import { describe, expect, it } from "vitest";
import { cautionsOf, evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const RECIPE = {
  batchVolume: 0.5e-3,
  "scaling.spiritMass": 0.1,
  "scaling.ascorbicAcidMass": 0.05,
  "scaling.lecithinMass": 0.03,
};

describe("scaling", () => {
  it("makes as much as the shortest ingredient allows", () => {
    const stock = { spiritInStock: 0.7, ascorbicAcidInStock: 0.25, lecithinInStock: 0.06 };
    const values = valuesOf("scaling", { ...RECIPE, ...stock });
    expect(values["spiritFactor"]).toBeCloseTo(7, 12);
    expect(values["ascorbicAcidFactor"]).toBeCloseTo(5, 12);
    expect(values["lecithinFactor"]).toBeCloseTo(2, 12);
    expect(values["factor"]).toBeCloseTo(2, 12);
    expect(values["largestVolume"]).toBeCloseTo(1e-3, 12);
  });

  it("uses up exactly what runs out first when the recipe is made that large", () => {
    const stock = { spiritInStock: 0.7, ascorbicAcidInStock: 0.25, lecithinInStock: 0.2 };
    const { largestVolume } = valuesOf("scaling", stock);
    const used = valuesOf("recipe", { batchVolume: largestVolume! });
    const left = [
      0.7 - used["spiritMass"]!,
      0.25 - used["ascorbicAcidMass"]!,
      0.2 - used["lecithinMass"]!,
    ];
    expect(Math.min(...left)).toBeCloseTo(0, 9);
  });

  it("makes nothing where one ingredient is missing, and leaves out one not needed", () => {
    expect(valuesOf("scaling", { ...RECIPE, lecithinInStock: 0 })["largestVolume"]).toBe(0);
    const without = { ...RECIPE, "scaling.lecithinMass": 0, lecithinInStock: 0 };
    const { values } = evaluated("scaling", without);
    expect(values["lecithinFactor"]).toBeNull();
    expect(values["largestVolume"]!.value).toBeGreaterThan(0);
  });

  it("refuses a recipe of water alone", () => {
    const refused = refusalsOf("scaling", {
      batchVolume: 0.5e-3,
      "scaling.spiritMass": 0,
      "scaling.ascorbicAcidMass": 0,
      "scaling.lecithinMass": 0,
    });
    expect(refused.map(({ input }) => input)).toEqual(["spiritMass"]);
  });

  it("warns above two litres and not at two", () => {
    const stock = (lecithinInStock: number) =>
      cautionsOf("scaling", {
        ...RECIPE,
        spiritInStock: 20,
        ascorbicAcidInStock: 20,
        lecithinInStock,
      });
    expect(stock(0.1199)).toEqual([]);
    expect(stock(0.1201)).toEqual(["glass"]);
  });
});
