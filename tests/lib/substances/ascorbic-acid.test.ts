import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  ASCORBIC_ACID_MOLAR_MASS,
  ascorbicAcidSolubility,
} from "../../../lib/substances/ascorbic-acid.ts";

const FRACTIONS = Array.from({ length: 101 }, (_, i) => i / 100);

describe("ASCORBIC_ACID_MOLAR_MASS", () => {
  it("is the pharmacopoeia's, and gives its iodine factor", () => {
    // USP 32, Ascorbic Acid: 176.12 g/mol; 8.806 mg for each mL of 0.1 N iodine, two electrons each. seen
    expect(1000 * ASCORBIC_ACID_MOLAR_MASS).toBeCloseTo(176.12, 2);
    expect((1000 * ASCORBIC_ACID_MOLAR_MASS) / 2 / 10).toBeCloseTo(8.806, 3);
  });
});

describe("ascorbicAcidSolubility(massFraction, temperature)", () => {
  // Handbook of Pharmaceutical Excipients, ascorbic acid, solubility at 20 °C: 1 in 3.5 of water, 1 in 25 of
  // ethanol (95 %), 1 in 50 of ethanol; mL of solvent, here with its density in g/mL and its mass fraction.
  // memory
  it.each([
    ["water", 3.5, 0.9982, 0],
    ["ethanol (95 %)", 25, 0.8114, 0.9242],
    ["ethanol", 50, 0.7893, 1],
  ])("holds the handbook's figure for %s in its band", (_, millilitres, density, massFraction) => {
    const { low, high } = ascorbicAcidSolubility(massFraction);
    expect(1 / (millilitres * density)).toBeGreaterThan(low);
    expect(1 / (millilitres * density)).toBeLessThan(high);
  });

  it("has a straight logarithm between water and alcohol", () => {
    const [water, alcohol] = [ascorbicAcidSolubility(0).value, ascorbicAcidSolubility(1).value];
    for (const w of FRACTIONS)
      expect(Math.log(ascorbicAcidSolubility(w).value)).toBeCloseTo(
        (1 - w) * Math.log(water) + w * Math.log(alcohol),
        12,
      );
  });

  it("falls with every drop of alcohol, at both edges too", () => {
    for (const edge of ["low", "value", "high"] as const)
      for (const [i, w] of FRACTIONS.slice(1).entries())
        expect(ascorbicAcidSolubility(w)[edge]).toBeLessThan(
          ascorbicAcidSolubility(FRACTIONS[i]!)[edge],
        );
  });

  it("has a fifth either way at the ends, where the figures are published", () => {
    for (const w of [0, 1]) {
      const { value, low, high } = ascorbicAcidSolubility(w);
      expect(low / value).toBeCloseTo(0.8, 12);
      expect(high / value).toBeCloseTo(1.2, 12);
    }
  });

  it("is less sure between the ends, and ends a fifth above the mean by mass", () => {
    const [water, alcohol] = [ascorbicAcidSolubility(0).value, ascorbicAcidSolubility(1).value];
    for (const w of FRACTIONS.slice(1, -1)) {
      const { value, low, high } = ascorbicAcidSolubility(w);
      expect(high / low).toBeGreaterThan(1.5);
      expect(low / value).toBeCloseTo(0.8, 12);
      expect(high).toBeCloseTo(1.2 * (water * (1 - w) + alcohol * w), 12);
    }
  });

  it.each([-1e-9, 1.000_001, Number.NaN, Infinity])("refuses a mass fraction of %d", (w) => {
    expect(() => ascorbicAcidSolubility(w)).toThrow(OutOfRangeError);
  });

  it("is the same throughout a room's temperatures", () => {
    for (const t of [20, 22, 25])
      expect(ascorbicAcidSolubility(0.1, t)).toEqual(ascorbicAcidSolubility(0.1));
  });

  it("lets cold lower the lower edge alone, and warmth raise the upper alone", () => {
    const room = ascorbicAcidSolubility(0.1);
    const cold = ascorbicAcidSolubility(0.1, 5);
    const warm = ascorbicAcidSolubility(0.1, 40);
    for (const { value } of [cold, warm]) expect(value).toBe(room.value);
    expect(cold.high).toBe(room.high);
    expect(warm.low).toBe(room.low);
    // 15 K away on either side: the same factor.
    expect(room.low / cold.low).toBeCloseTo(warm.high / room.high, 12);
    expect(warm.high / room.high).toBeCloseTo(Math.exp(0.63), 12);
  });

  it.each([-0.1, 50.1, Number.NaN])("refuses %d °C", (temperature) => {
    expect(() => ascorbicAcidSolubility(0.1, temperature)).toThrow(OutOfRangeError);
  });
});
