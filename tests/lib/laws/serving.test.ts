import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { serving, UPPER_INTAKE } from "../../../lib/laws/serving.ts";

const LIQUID = { ascorbicAcidConcentration: 100, alcoholStrength: 0.12, entrapment: 0.1 };
const US_FLUID_OUNCE = 29.5735e-6;

describe("serving(servingVolume, bottleVolume, liquid)", () => {
  const grams = (volume: number, alcoholStrength: number) =>
    1000 * serving(volume, 1e-3, { ...LIQUID, alcoholStrength }).ethanolMass;

  it("weighs the ethanol of published measures", () => {
    // UK Chief Medical Officers: 10 mL of ethanol, 25 mL at 40 % vol, is 7.89 g. seen
    expect(grams(25e-6, 0.4)).toBeCloseTo(7.89, 2);
    expect(grams(10e-6, 1)).toBeCloseTo(7.89, 2);
    // NIAAA: 0.6 US fl oz of ethanol is 14 g, 17.7 mL. seen
    expect(grams(0.6 * US_FLUID_OUNCE, 1)).toBeCloseTo(14, 1);
    // mL × % vol/100 × 0.789, at 20 °C. seen
    expect(Math.abs(grams(30e-6, 0.12) / (30 * 0.12 * 0.789) - 1)).toBeLessThan(0.001);
  });

  it("weighs the acid against the upper level for a day", () => {
    // Institute of Medicine (2000): 2000 mg a day. seen
    expect(UPPER_INTAKE).toBe(2000e-6);
    const { ascorbicAcidMass, enclosedMass, shareOfUpperIntake } = serving(10e-6, 250e-6, LIQUID);
    expect(ascorbicAcidMass).toBeCloseTo(1e-3, 12);
    expect(enclosedMass).toBeCloseTo(1e-4, 12);
    expect(shareOfUpperIntake).toBeCloseTo(0.5, 12);
    expect(serving(20e-6, 250e-6, LIQUID).shareOfUpperIntake).toBeCloseTo(1, 12);
  });

  it("counts whole servings, and one that just fits", () => {
    expect(serving(10e-6, 250e-6, LIQUID).servingsPerBottle).toBe(25);
    expect(serving(10e-6, 249.9e-6, LIQUID).servingsPerBottle).toBe(24);
    // 0.3/0.1 is a hair below three.
    expect(serving(0.1e-3, 0.3e-3, LIQUID).servingsPerBottle).toBe(3);
    expect(serving(250e-6, 250e-6, LIQUID).servingsPerBottle).toBe(1);
  });

  it("holds nothing of what the liquid has none of", () => {
    const water = { ascorbicAcidConcentration: 0, alcoholStrength: 0, entrapment: 0 };
    expect(serving(10e-6, 250e-6, water)).toMatchObject({
      ascorbicAcidMass: 0,
      enclosedMass: 0,
      ethanolMass: 0,
      shareOfUpperIntake: 0,
    });
  });

  it.each([
    [0, 250e-6],
    [251e-6, 250e-6],
    [1.1e-3, 2e-3],
    [Number.NaN, 250e-6],
    [10e-6, 0],
    [10e-6, 0.021],
    [10e-6, Number.NaN],
  ])("refuses a serving of %d m³ from a bottle of %d", (volume, bottle) => {
    expect(() => serving(volume, bottle, LIQUID)).toThrow(OutOfRangeError);
  });

  it.each([
    ["ascorbicAcidConcentration", -1],
    ["ascorbicAcidConcentration", 401],
    ["alcoholStrength", -0.01],
    ["alcoholStrength", 1.01],
    ["entrapment", -0.01],
    ["entrapment", 1.01],
    ["entrapment", Number.NaN],
  ])("refuses a %s of %d, by its name", (quantity, value) => {
    expect(() => serving(10e-6, 250e-6, { ...LIQUID, [quantity]: value })).toThrow(
      expect.objectContaining({ quantity }),
    );
  });
});
