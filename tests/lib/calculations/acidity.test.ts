import { describe, expect, it } from "vitest";
import { cautionsOf, evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const at = (ascorbicAcidConcentration: number) => ({ ascorbicAcidConcentration });

describe("acidity", () => {
  it("comes to the published pH of 50 g/L", () => {
    const { value, low, high } = evaluated("acidity", at(50)).values["pH"]!;
    // Ph. Eur. and BP on a certificate, and the Handbook of Pharmaceutical Excipients: 2.1 to 2.6. seen
    expect(value).toBeGreaterThan(2.1);
    expect(value).toBeLessThan(2.6);
    expect(low).toBeLessThanOrEqual(2.1);
    expect(high).toBeGreaterThanOrEqual(2.6);
  });

  it("shows the shortcut beside the balance: 2.36 at 50 g/L", () => {
    // ½ (4.17 − log₁₀ 0.284). computed
    expect(valuesOf("acidity", at(50))["shortcut"]).toBeCloseTo(2.36, 2);
    expect(valuesOf("acidity", at(50))["pH"]).toBeCloseTo(2.36, 2);
  });

  it("takes the molar mass of the pharmacopoeia", () => {
    // USP 32: 176.12 g/mol. seen
    expect(valuesOf("acidity", {})["molarMass"]).toBeCloseTo(0.17612, 5);
  });

  it("falls by half a unit for ten times the acid", () => {
    const fall = valuesOf("acidity", at(10))["pH"]! - valuesOf("acidity", at(100))["pH"]!;
    expect(fall).toBeCloseTo(0.5, 1);
  });

  it("has as many protons as acid gave up, and an ionic strength of the same size", () => {
    const { proton, dissociated, molarConcentration, ionicStrength } = valuesOf("acidity", at(100));
    expect(proton! / (dissociated! * molarConcentration!)).toBeCloseTo(1, 6);
    expect(ionicStrength! / proton!).toBeCloseTo(1, 6);
  });

  it("is neutral without acid, where the shortcut has no answer", () => {
    const { values } = evaluated("acidity", at(0));
    expect(values["pH"]!.value).toBeCloseTo(7, 2);
    expect(values["dissociated"]!.value).toBe(0);
    expect(values["shortcut"]).toBeNull();
  });

  it("speaks of metals and teeth from a pH of 4.5 down, not above", () => {
    expect(cautionsOf("acidity", at(0))).toEqual([]);
    // In water 0.0078 g/L has a pH of 4.5.
    const [weaker, stronger] = [0.007, 0.009];
    expect(valuesOf("acidity", at(weaker))["pH"]).toBeGreaterThan(4.5);
    expect(cautionsOf("acidity", at(weaker))).toEqual([]);
    expect(valuesOf("acidity", at(stronger))["pH"]).toBeLessThan(4.5);
    expect(cautionsOf("acidity", at(stronger))).toEqual(["metals-and-acid"]);
  });

  it.each([-1, 400.1, Number.NaN])("refuses %d kg/m³", (concentration) => {
    expect(refusalsOf("acidity", at(concentration)).map(({ input }) => input)).toEqual([
      "ascorbicAcidConcentration",
    ]);
  });
});
