import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { acidity, diproticAcidity } from "../../../lib/laws/acidity.ts";
import { ACID_CONSTANTS, ASCORBIC_ACID_MOLAR_MASS } from "../../../lib/substances/ascorbic-acid.ts";

describe("diproticAcidity(concentration, first, second)", () => {
  it("agrees with the weak-acid estimate where that holds", () => {
    // ½ (pKₐ − log₁₀ c), c = 0.284 mol/L: 2.36. computed
    expect(diproticAcidity(284, 4.17, 11.57).pH).toBeCloseTo(2.36, 2);
  });

  it("gives two protons for each molecule of a strong acid, and one where the second holds on", () => {
    const both = diproticAcidity(50, -5, -5);
    expect(both.pH).toBeCloseTo(1, 6);
    // ½ Σ c z²: 0.1 mol/L of protons and four times 0.05 of the twofold ion.
    expect(both.ionicStrength).toBeCloseTo(150, 3);
    expect(both.dissociated).toBeCloseTo(1, 4);
    const one = diproticAcidity(100, -5, 14);
    expect(one.pH).toBeCloseTo(1, 5);
    expect(one.ionicStrength).toBeCloseTo(100, 3);
  });

  it("solves a textbook's strong first and weak second proton", () => {
    // Sulfuric acid, 0.01 mol/L, K₂ 0.012: K₂ = (0.01 + x) x/(0.01 − x). computed
    const x = (-0.022 + Math.sqrt(0.022 ** 2 + 4 * 0.012 * 0.01)) / 2;
    const { pH } = diproticAcidity(10, -5, -Math.log10(0.012));
    expect(10 ** -pH).toBeCloseTo(0.01 + x, 6);
  });

  it.each([
    [-1, 4, 11],
    [5001, 4, 11],
    [Number.NaN, 4, 11],
    [100, -5.1, 11],
    [100, 4, 14.1],
    [100, Number.NaN, 11],
  ])("refuses %d mol/m³ with constants of %d and %d", (concentration, first, second) => {
    expect(() => diproticAcidity(concentration, first, second)).toThrow(OutOfRangeError);
  });
});

describe("acidity(ascorbicAcidConcentration)", () => {
  it("lies in the pharmacopoeia's range at 50 g/L", () => {
    // Handbook of Pharmaceutical Excipients; Ph. Eur./BP on a certificate: pH 2.1 to 2.6. seen
    const { value, low, high } = acidity(50).pH;
    expect(value).toBeGreaterThan(2.1);
    expect(value).toBeLessThan(2.6);
    // As wide as what is allowed, and about the same place.
    expect(low).toBeCloseTo(2.1, 1);
    expect(high).toBeCloseTo(2.6, 1);
  });

  it.each([0.01, 1, 50, 200, 400])("leaves no charge over at %d g/L", (concentration) => {
    const { pH, ionicStrength, dissociated } = acidity(concentration);
    const molarity = concentration / ASCORBIC_ACID_MOLAR_MASS / 1000;
    const proton = 10 ** -pH.value;
    // From the dissociation constant alone: the second proton and water's own are a millionth of it.
    const ratio = 10 ** -ACID_CONSTANTS.first.value / proton;
    expect(dissociated / (ratio / (1 + ratio))).toBeCloseTo(1, 4);
    expect(proton / (dissociated * molarity)).toBeCloseTo(1, 4);
    expect(ionicStrength / (1000 * proton)).toBeCloseTo(1, 4);
  });

  it("falls by half a unit for ten times the acid, while little of it is dissociated", () => {
    const fall = acidity(20).pH.value - acidity(200).pH.value;
    expect(fall).toBeCloseTo(0.5, 2);
    expect(acidity(20).pH.value).toBeGreaterThan(acidity(20.1).pH.value);
  });

  it("is neutral without acid, and a strong acid's where all of it is dissociated", () => {
    // Half of water's constant, CRC Handbook. memory
    expect(acidity(0).pH).toEqual({
      value: expect.closeTo(6.9975, 6),
      low: expect.closeTo(6.9975, 6),
      high: expect.closeTo(6.9975, 6),
    });
    const micromolar = 1e-3 * ASCORBIC_ACID_MOLAR_MASS;
    expect(acidity(micromolar).pH.value).toBeCloseTo(6, 1);
    expect(acidity(micromolar).dissociated).toBeGreaterThan(0.98);
    expect(acidity(0).dissociated).toBe(0);
    // Water's own protons and hydroxide, 10^−6.9975 mol/L of each.
    expect(acidity(0).ionicStrength).toBeCloseTo(1000 * 10 ** -6.9975, 9);
  });

  it("spreads by the pharmacopoeia's range and the other published constant", () => {
    // pK₁ 4.10, an encyclopaedia, beside 4.17. seen. Half of the difference reaches the pH.
    const { value, low, high } = acidity(50).pH;
    expect(value - low).toBeCloseTo(0.25 + 0.035, 3);
    expect(high - value).toBeCloseTo(0.25, 6);
  });

  it.each([-1e-9, 401, Number.NaN, Infinity])("refuses %d g/L", (concentration) => {
    expect(() => acidity(concentration)).toThrow(OutOfRangeError);
  });
});
