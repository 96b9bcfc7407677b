import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { acidity } from "../../../lib/laws/acidity.ts";
import { ACID_CONSTANTS, ASCORBIC_ACID_MOLAR_MASS } from "../../../lib/substances/ascorbic-acid.ts";

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

  it("agrees with the weak-acid estimate at 50 g/L", () => {
    // ½ (pKₐ − log₁₀ c), c = 0.284 mol/L: 2.36. computed
    expect(acidity(50).pH.value).toBeCloseTo(2.36, 2);
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
  });

  it("holds the other published constant in its band", () => {
    // pK₁ 4.10, an encyclopaedia. seen
    const other = acidity(50).pH.value - (4.17 - 4.1) / 2;
    expect(acidity(50).pH.low).toBeLessThan(other);
  });

  it.each([-1e-9, 401, Number.NaN, Infinity])("refuses %d g/L", (concentration) => {
    expect(() => acidity(concentration)).toThrow(OutOfRangeError);
  });
});
