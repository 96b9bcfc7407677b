import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  massFractionFromUkProof,
  massFractionFromUsProof,
  PROOF_LIMITS,
  PROOF_SPIRIT,
  ukProof,
  US_PROOF_TEMPERATURE,
  usProof,
} from "../../../lib/laws/proof.ts";
import { density, strength } from "../../../lib/substances/ethanol-water.ts";

describe("usProof(massFraction)", () => {
  // USP 29, Alcoholometric Table (NBS Bulletin 9, 424–425): % mass against % vol at 60 °F. seen
  it.each([
    [0.05, 6.24],
    [0.1, 12.39],
    [0.2, 24.47],
    [0.3, 36.18],
    [0.32, 38.46],
  ])("is twice the pharmacopoeia's strength at a mass fraction of %d", (p, percent) => {
    expect(Math.abs(usProof(p) - 2 * percent)).toBeLessThanOrEqual(0.02);
  });

  it("counts water as 0 and ethanol as 200", () => {
    expect(usProof(0)).toBe(0);
    expect(usProof(1)).toBe(200);
  });

  it("makes 200 proof into 190 with the weight of water in the regulation", () => {
    // 27 CFR 30.64, worked example: 1000 lb of 200 proof need 82.03 lb of water. seen
    expect(Math.abs(1000 / massFractionFromUsProof(190) - 1000 - 82.03)).toBeLessThanOrEqual(0.05);
  });

  // US Gauging Manual, Table 6, volumes at 60 °F: water in 100 volumes. seen
  it.each([
    [191, 5.59],
    [188, 7.36],
  ])("finds the water in 100 volumes of %d proof", (proof, water) => {
    const p = massFractionFromUsProof(proof);
    const t = US_PROOF_TEMPERATURE;
    expect(Math.abs((100 * (1 - p) * density(p, t)) / density(0, t) - water)).toBeLessThan(0.05);
  });

  it.each([-0.001, 1.001, Number.NaN])("refuses a mass fraction of %d", (p) => {
    expect(() => usProof(p)).toThrow(OutOfRangeError);
  });
});

describe("massFractionFromUsProof(proof)", () => {
  it("undoes usProof, exactly at the ends", () => {
    expect(massFractionFromUsProof(0)).toBe(0);
    expect(massFractionFromUsProof(200)).toBe(1);
    for (const p of [0.01, 0.3, 0.92])
      expect(massFractionFromUsProof(usProof(p))).toBeCloseTo(p, 11);
  });

  it.each([-0.1, 200.1, Number.NaN])("refuses %d", (proof) => {
    expect(() => massFractionFromUsProof(proof)).toThrow(/^usProof must/);
  });
});

describe("ukProof(massFraction)", () => {
  it("calls a spirit of 57.1 % vol proof", () => {
    // Scotch Whisky Association (1995), chapter 6: 100 degrees are 57.1 % vol. seen
    expect(Math.abs(100 * strength(PROOF_SPIRIT) - 57.1)).toBeLessThanOrEqual(0.06);
    expect(ukProof(PROOF_SPIRIT)).toBeCloseTo(100, 10);
  });

  it("weighs proof spirit at 12/13 of water at 51 °F", () => {
    // Alcoholic Liquor Duties Act 1979, section 2 (as enacted). seen
    const t = (51 - 32) / 1.8;
    expect(density(PROOF_SPIRIT, t) / density(0, t)).toBeCloseTo(12 / 13, 12);
  });

  it("runs with the common rule of 7/4 degrees for each % vol", () => {
    // Printed rule: degrees = 1.75 × % vol. seen
    for (const p of [0.2, 0.4, 0.6, 0.8, 1])
      expect(ukProof(p) / (100 * strength(p))).toBeCloseTo(1.75, 1);
  });

  it("counts water as 0 and ethanol as the end of the scale", () => {
    expect(ukProof(0)).toBe(0);
    expect(ukProof(1)).toBeCloseTo(PROOF_LIMITS.ukProof.max, 10);
    expect(PROOF_LIMITS.ukProof.max).toBeCloseTo(175.4, 1);
  });

  it.each([-0.001, 1.001, Number.NaN])("refuses a mass fraction of %d", (p) => {
    expect(() => ukProof(p)).toThrow(OutOfRangeError);
  });
});

describe("massFractionFromUkProof(proof)", () => {
  it("undoes ukProof, exactly at the ends", () => {
    expect(massFractionFromUkProof(0)).toBe(0);
    expect(massFractionFromUkProof(PROOF_LIMITS.ukProof.max)).toBe(1);
    for (const p of [0.01, 0.3, 0.92])
      expect(massFractionFromUkProof(ukProof(p))).toBeCloseTo(p, 11);
  });

  it("reads the same number as stronger than the American scale does", () => {
    expect(strength(massFractionFromUkProof(40))).toBeGreaterThan(
      strength(massFractionFromUsProof(40)),
    );
  });

  it.each([-0.1, 175.5, Number.NaN])("refuses %d", (proof) => {
    expect(() => massFractionFromUkProof(proof)).toThrow(OutOfRangeError);
  });
});
