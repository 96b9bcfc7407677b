import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  CONTENTS_LIMITS,
  ETHANOL_DENSITY,
  solventMixture,
  solventVolume,
} from "../../../lib/laws/recipe.ts";

describe("ETHANOL_DENSITY", () => {
  it("is that of the alcoholometric tables", () => {
    // OIML R 22 (1975), Table I, pure ethanol at 20 °C: 789.24 kg/m³. memory
    expect(Math.abs(ETHANOL_DENSITY - 789.24)).toBeLessThanOrEqual(0.005);
  });
});

describe("solventVolume(volume, solutes)", () => {
  it("takes away what each solute takes up", () => {
    const solutes = [
      { mass: 0.05, specificVolume: 0.6e-3 },
      { mass: 0.03, specificVolume: 0.98e-3 },
    ];
    expect(solventVolume(0.5e-3, solutes)).toBeCloseTo(0.5e-3 - 0.03e-3 - 0.0294e-3, 15);
    expect(solventVolume(0.5e-3, solutes.toReversed())).toBeCloseTo(
      solventVolume(0.5e-3, solutes),
      15,
    );
  });

  it("leaves all the room where nothing is dissolved", () => {
    expect(solventVolume(0.5e-3, [])).toBe(0.5e-3);
    expect(solventVolume(0.5e-3, [{ mass: 0, specificVolume: 0.01 }])).toBe(0.5e-3);
    expect(solventVolume(0.5e-3, [{ mass: 1000, specificVolume: 0 }])).toBe(0.5e-3);
  });

  it("goes below nothing and leaves the judgement to the caller", () => {
    expect(solventVolume(1e-3, [{ mass: 1, specificVolume: 2e-3 }])).toBeCloseTo(-1e-3, 15);
  });

  it("answers at the ends of the volume's range", () => {
    expect(solventVolume(CONTENTS_LIMITS.volume.min, [])).toBe(1e-9);
    expect(solventVolume(CONTENTS_LIMITS.volume.max, [])).toBe(1);
  });

  it.each([0, 0.9e-9, 1.001, -1, Number.NaN])("refuses a volume of %d m³", (volume) => {
    expect(() => solventVolume(volume, [])).toThrow(OutOfRangeError);
  });

  it.each([
    ["mass", -1e-9],
    ["mass", 1000.1],
    ["mass", Number.NaN],
    ["specificVolume", -1e-9],
    ["specificVolume", 0.0101],
    ["specificVolume", Number.NaN],
  ] as const)("refuses a solute whose %s is %d", (name, value) => {
    const right = { mass: 0.1, specificVolume: 1e-3 };
    expect(() => solventVolume(1e-3, [right, { ...right, [name]: value }])).toThrow(
      expect.objectContaining({ name: "OutOfRangeError", quantity: name }),
    );
  });
});

describe("solventMixture(volume, ethanolMass)", () => {
  // European Pharmacopoeia 5.5, alcoholometric tables at 20 °C: % vol, % mass, density kg/m³. memory
  it.each([
    [0, 0, 998.2],
    [0.4, 0.333, 948.05],
    [0.96, 0.9384, 807.42],
  ])("fills a litre as the pharmacopoeia does at a strength of %d", (strength, share, density) => {
    const mixture = solventMixture(1e-3, strength * 1e-3 * 789.24);
    expect(mixture.strength).toBeCloseTo(strength, 5);
    expect(Math.abs(mixture.massFraction - share)).toBeLessThanOrEqual(0.5e-4 + 1e-5);
    expect(Math.abs(mixture.mass * 1000 - density)).toBeLessThanOrEqual(0.02);
  });

  it("holds the ethanol that went in", () => {
    for (const ethanolMass of [0.001, 0.1, 0.2, 0.39]) {
      const { mass, massFraction } = solventMixture(0.5e-3, ethanolMass);
      expect((mass * massFraction) / ethanolMass).toBeCloseTo(1, 11);
    }
  });

  it("weighs more than its parts would side by side: the liquids pack together", () => {
    const { mass } = solventMixture(1e-3, 0.4 * 789.24e-3);
    expect(mass).toBeGreaterThan(0.4 * 789.24e-3 + 0.6 * 998.2e-3 + 0.03);
  });

  it("doubles with volume and ethanol", () => {
    const [once, twice] = [solventMixture(0.4e-3, 0.05), solventMixture(0.8e-3, 0.1)];
    expect(twice.mass / once.mass).toBeCloseTo(2, 13);
    expect(twice.strength).toBeCloseTo(once.strength, 15);
    expect(twice.massFraction).toBeCloseTo(once.massFraction, 13);
  });

  it("is pure alcohol where alcohol fills it all", () => {
    const full = solventMixture(1, ETHANOL_DENSITY);
    expect(full.strength).toBe(1);
    expect(full.massFraction).toBeCloseTo(1, 12);
    expect(full.mass).toBeCloseTo(ETHANOL_DENSITY, 6);
    // Some of these come out a rounding above full.
    for (let millilitres = 1; millilitres <= 1000; millilitres++)
      expect(
        solventMixture(millilitres / 1e6, (millilitres / 1e6) * ETHANOL_DENSITY).strength,
      ).toBeCloseTo(1, 12);
  });

  it.each([-1e-6, 0.79, Number.NaN, Infinity])("refuses %d kg of ethanol in a litre", (mass) => {
    expect(() => solventMixture(1e-3, mass)).toThrow(
      expect.objectContaining({ name: "OutOfRangeError", quantity: "strength" }),
    );
  });

  it.each([0, -1e-3, 1.001, Number.NaN])("refuses a volume of %d m³", (volume) => {
    expect(() => solventMixture(volume, 0)).toThrow(OutOfRangeError);
  });
});
