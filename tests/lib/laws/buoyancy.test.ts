import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  apparentDensity,
  BUOYANCY_LIMITS,
  conventionalMass,
  massFromReading,
  WEIGHT_DENSITY,
} from "../../../lib/laws/buoyancy.ts";
import { density, massFraction } from "../../../lib/substances/ethanol-water.ts";
import { density as waterDensity } from "../../../lib/substances/water.ts";

describe("massFromReading(reading, density)", () => {
  it("agrees with the worked example for aluminium", () => {
    // Balance manual, air buoyancy example: 2000.000 mg shown at 2700 kg/m³ is 2000.589 mg. seen
    expect(Math.abs(massFromReading(2000e-6, 2700) * 1e6 - 2000.589)).toBeLessThan(0.002);
  });

  // ISO 8655-6, ISO/TR 20461: Z factors, mL of water for each gram shown, 1013 hPa. seen
  it.each([
    [15, 1.002],
    [20, 1.0029],
    [25, 1.004],
    [30, 1.0054],
  ])("gives the Z factor of water at %d °C", (temperature, z) => {
    const water = waterDensity(temperature);
    expect(Math.abs((massFromReading(1, water) / water) * 1000 - z)).toBeLessThanOrEqual(1e-4);
  });

  it("reproduces the volume of a weighed spirit", () => {
    // 27 CFR 30.64, Table 4: 1 lb of 190 proof weighed in air is 0.14718 US gal. seen
    const t = (60 - 32) / 1.8;
    const spirit = density(massFraction(0.95, t), t);
    const volume = massFromReading(0.45359237, spirit) / spirit / 3.785411784e-3;
    expect(Math.abs(volume - 0.14718)).toBeLessThanOrEqual(2e-5);
  });

  it("leaves a body as dense as the weights alone", () => {
    expect(massFromReading(0.5, WEIGHT_DENSITY)).toBe(0.5);
  });

  it.each([-1, 1001, Number.NaN])("refuses a reading of %d kg", (reading) => {
    expect(() => massFromReading(reading, 1000)).toThrow(OutOfRangeError);
  });

  it.each([0, 9.99, 25_001, Number.NaN])("refuses a density of %d kg/m³", (value) => {
    expect(() => massFromReading(1, value)).toThrow(OutOfRangeError);
  });
});

describe("conventionalMass(mass, density)", () => {
  it("is undone by massFromReading", () => {
    for (const value of [10, 800, 998, 2700, 25_000])
      expect(massFromReading(conventionalMass(0.4, value), value)).toBeCloseTo(0.4, 15);
  });

  it("is proportional to the mass", () => {
    expect(conventionalMass(2, 900) / conventionalMass(0.5, 900)).toBeCloseTo(4, 14);
  });

  it("answers at both edges", () => {
    const { mass, density: range } = BUOYANCY_LIMITS;
    expect(conventionalMass(mass.min, range.min)).toBe(0);
    expect(conventionalMass(mass.max, range.max)).toBeCloseTo(1000.1, 1);
  });

  it.each([-1, 1001, Number.NaN])("refuses a mass of %d kg", (mass) => {
    expect(() => conventionalMass(mass, 1000)).toThrow(OutOfRangeError);
  });

  it.each([9.99, 25_001, Number.NaN])("refuses a density of %d kg/m³", (value) => {
    expect(() => conventionalMass(1, value)).toThrow(OutOfRangeError);
  });
});

describe("apparentDensity(density)", () => {
  // Vietnamese Pharmacopoeia, Dilute ethanols: apparent density at 20 °C at each end of the allowed strength.
  // seen
  it.each([
    [0.496, 929.8],
    [0.502, 928.6],
    [0.695, 885.8],
    [0.704, 883.5],
    [0.896, 829.4],
    [0.905, 826.4],
  ])("gives the pharmacopoeia's limit at a strength of %d", (strength, value) => {
    const apparent = apparentDensity(density(massFraction(strength), 20));
    expect(Math.abs(apparent - value)).toBeLessThanOrEqual(0.15);
  });

  it("is 1.0 to 1.1 kg/m³ below the true density of any mixture", () => {
    for (let p = 0; p <= 1; p += 0.1) {
      const less = density(p, 20) - apparentDensity(density(p, 20));
      expect(less).toBeGreaterThan(1);
      expect(less).toBeLessThan(1.1);
    }
  });

  it.each([9.99, 25_001, Number.NaN])("refuses %d kg/m³", (value) => {
    expect(() => apparentDensity(value)).toThrow(OutOfRangeError);
  });
});
