import { describe, expect, it } from "vitest";
import { flashPoint } from "../../../lib/laws/flash-point.ts";
import { massFraction } from "../../../lib/substances/ethanol-water.ts";
import { cautionsOf, evaluated, valuesOf } from "../../helpers/calculations.ts";

const at = (massFraction: number, temperature: number) => ({
  "flash-point.solventMassFraction": massFraction,
  "flash-point.liquidTemperature": temperature,
});

describe("flash-point", () => {
  it("puts 17 % vol and stronger past their flash point at 40 °C", () => {
    // Liaw's model with 13 °C for pure ethanol, elsewhere: 16.77 % vol. computed
    expect(valuesOf("flash-point", at(0.1, 40))["strengthFlashingAt"]).toBeCloseTo(0.1677, 3);
    expect(valuesOf("flash-point", at(massFraction(0.165), 40))["margin"]).toBeGreaterThan(0);
    expect(valuesOf("flash-point", at(massFraction(0.17), 40))["margin"]).toBeLessThan(0);
  });

  it("holds 36 °C for 20 %, read either way", () => {
    // An engineering handbook's table. seen
    for (const w of [0.2, massFraction(0.2)]) {
      const { values } = evaluated("flash-point", at(w, 25));
      expect(values["flashPoint"]!.low).toBeLessThan(36);
      expect(values["flashPoint"]!.high).toBeGreaterThan(36);
    }
  });

  it("bands the strength that flashes by the same tables", () => {
    const { values } = evaluated("flash-point", at(0.1, 36));
    // 20 % by mass and by volume.
    expect(values["strengthFlashingAt"]!.low).toBeLessThan(0.2);
    expect(values["strengthFlashingAt"]!.high).toBeGreaterThan(0.246);
  });

  it("has neither margin nor category nor caution without alcohol, at any heat", () => {
    const { values, cautions } = evaluated("flash-point", {
      alcoholStrength: 0,
      "flash-point.liquidTemperature": 85,
    });
    for (const name of ["flashPoint", "margin", "hazardCategory", "burnableFrom"])
      expect(values[name], name).toBeNull();
    expect(values["saturatedShare"]!.value).toBe(0);
    expect(cautions).toEqual([]);
  });

  it.each([
    // UN GHS ch. 2.6: under 23 °C is 2, to 60 °C is 3, above is 4. seen
    [0.9, 2],
    [0.2, 3],
    [0.035, 4],
  ])("puts %d mass into category %d", (w, category) => {
    expect(valuesOf("flash-point", at(w, 20))["hazardCategory"]).toBe(category);
  });

  it("names the worse category within the band near an edge", () => {
    const near = evaluated("flash-point", at(0.5, 20)).values["hazardCategory"]!;
    expect([near.low, near.value, near.high]).toEqual([2, 3, 3]);
  });

  it("finds the air in a bottle of pure alcohol able to burn at room temperature", () => {
    // From the limits 3.3 and 19 %: 11.0 to 41.4 °C. computed
    const v = valuesOf("flash-point", at(1, 20));
    expect(v["burnableFrom"]).toBeCloseTo(11, 0);
    expect(v["burnableTo"]).toBeCloseTo(41.4, 0);
  });

  it("answers at both ends of the temperature", () => {
    expect(valuesOf("flash-point", at(0.1, 0))).not.toHaveProperty("strengthFlashingAt");
    expect(valuesOf("flash-point", at(0.1, 12.9))).not.toHaveProperty("strengthFlashingAt");
    expect(valuesOf("flash-point", at(0.1, 13))["strengthFlashingAt"]).toBeCloseTo(1, 6);
    expect(valuesOf("flash-point", at(0.1, 90))["strengthFlashingAt"]).toBeLessThan(0.03);
    expect(valuesOf("flash-point", at(1, 85))).not.toHaveProperty("saturatedShare");
  });

  it("warns where the warm end of the liquid meets the low end of the flash point, not before", () => {
    // A probe is half a degree off, twice that is the band.
    const edge = flashPoint(0.12)!.low - 1;
    expect(cautionsOf("flash-point", at(0.12, edge - 0.01))).toEqual([]);
    expect(cautionsOf("flash-point", at(0.12, edge + 0.01))).toEqual(["flammable"]);
  });

  it("does not nag a sound batch, and speaks plainly to a careless one", () => {
    expect(cautionsOf("flash-point", at(massFraction(0.14), 25))).toEqual([]);
    const [notice] = evaluated("flash-point", at(massFraction(0.4), 40)).cautions;
    expect(notice?.say.join("")).toMatch(/is past its flash point/);
    const [may] = evaluated("flash-point", at(massFraction(0.4), 27)).cautions;
    expect(may?.say.join("")).toMatch(/may be past its flash point/);
  });
});
