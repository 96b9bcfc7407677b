import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { mix, mixingRise, partOfVolume, type Part } from "../../../lib/laws/mixing.ts";
import {
  excessEnthalpy,
  heatCapacity,
  massFractionFromMoleFraction,
  MOLAR_MASS,
} from "../../../lib/substances/ethanol-water.ts";

const WATER: Part = { mass: 0.3, massFraction: 0 };
const SPIRIT: Part = { mass: 0.2, massFraction: 0.9 };

describe("mix(a, b)", () => {
  it("adds masses, and masses of ethanol", () => {
    const { mass, massFraction } = mix(WATER, SPIRIT);
    expect(mass).toBeCloseTo(0.5, 15);
    expect(massFraction).toBeCloseTo(0.18 / 0.5, 15);
  });

  it("does not mind which part comes first", () => {
    expect(mix(SPIRIT, WATER)).toEqual(mix(WATER, SPIRIT));
  });

  it("leaves a part alone when the other is empty", () => {
    expect(mix(SPIRIT, { mass: 0, massFraction: 0.4 })).toEqual(SPIRIT);
    expect(mix({ mass: 0, massFraction: 1 }, SPIRIT)).toEqual(SPIRIT);
  });

  it("never passes pure ethanol by rounding", () => {
    for (let i = 1; i <= 200; i++)
      expect(
        mix({ mass: i / 7, massFraction: 1 }, { mass: i / 11, massFraction: 1 }).massFraction,
      ).toBe(1);
  });

  it("answers at the largest masses", () => {
    const full = { mass: 1000, massFraction: 1 };
    expect(mix({ mass: 1e-6, massFraction: 0 }, { ...full, mass: 999 }).mass).toBeCloseTo(999, 5);
    expect(mix({ mass: 0, massFraction: 0 }, full)).toEqual(full);
  });

  it.each([-1e-9, 1000.1, Number.NaN, Infinity])("refuses a mass of %d kg", (mass) => {
    expect(() => mix({ mass, massFraction: 0.5 }, WATER)).toThrow(OutOfRangeError);
    expect(() => mix(WATER, { mass, massFraction: 0.5 })).toThrow(OutOfRangeError);
  });

  it.each([-1e-9, 1.000_001, Number.NaN])("refuses a mass fraction of %d", (massFraction) => {
    expect(() => mix({ mass: 1, massFraction }, WATER)).toThrow(OutOfRangeError);
    expect(() => mix(WATER, { mass: 1, massFraction })).toThrow(OutOfRangeError);
  });

  it("refuses two empty parts", () => {
    const empty = { mass: 0, massFraction: 0.5 };
    expect(() => mix(empty, empty)).toThrow(OutOfRangeError);
  });
});

describe("mixingRise(a, b)", () => {
  it("holds a calorimeter's greatest heat of mixing in its band", () => {
    // Boyne & Williamson, J. Chem. Eng. Data 12 (1967) 318: H^E is lowest near x = 0.16 at 25 °C, about
    // −0.78 kJ for each mole of mixture. memory
    const massFraction = massFractionFromMoleFraction(0.16);
    const molesPerKilogram = 1 / (0.16 * 0.046068 + 0.84 * 0.018015);
    const measured = (780 * molesPerKilogram) / heatCapacity(massFraction, 25);
    const { low, high } = mixingRise(
      { mass: massFraction, massFraction: 1 },
      { mass: 1 - massFraction, massFraction: 0 },
    );
    expect(measured).toBeGreaterThan(low);
    expect(measured).toBeLessThan(high);
  });

  it("releases the excess enthalpy of each mole that is made", () => {
    for (const x of [0.05, 0.16, 0.6]) {
      const [ethanol, water] = [x * MOLAR_MASS.ethanol, (1 - x) * MOLAR_MASS.water];
      const mass = ethanol + water;
      const { value } = mixingRise(
        { mass: ethanol, massFraction: 1 },
        { mass: water, massFraction: 0 },
      );
      const stored = mass * heatCapacity(ethanol / mass, 25);
      expect(value * stored).toBeCloseTo(-excessEnthalpy(x, 25), 9);
    }
  });

  it("does not depend on how much is mixed, only on the shares", () => {
    const tenfold = ({ mass, massFraction }: Part): Part => ({ mass: 10 * mass, massFraction });
    expect(mixingRise(tenfold(WATER), tenfold(SPIRIT)).value).toBeCloseTo(
      mixingRise(WATER, SPIRIT).value,
      12,
    );
  });

  it("releases the same heat in two pours as in one", () => {
    const heat = (a: Part, b: Part): number => {
      const whole = mix(a, b);
      return mixingRise(a, b).value * whole.mass * heatCapacity(whole.massFraction, 25);
    };
    const half = { ...SPIRIT, mass: SPIRIT.mass / 2 };
    const inTwo = heat(WATER, half) + heat(mix(WATER, half), half);
    expect(inTwo / heat(WATER, SPIRIT)).toBeCloseTo(1, 12);
  });

  it("is nothing for two parts alike, and for an empty one", () => {
    expect(mixingRise(SPIRIT, { ...SPIRIT, mass: 0.7 }).value).toBeCloseTo(0, 12);
    expect(mixingRise(SPIRIT, { mass: 0, massFraction: 0 }).value).toBeCloseTo(0, 12);
    expect(mixingRise(WATER, WATER).value).toBe(0);
  });

  it("has a band of 15 % either way, right way up for a mixture that cools", () => {
    const warming = mixingRise(WATER, SPIRIT);
    expect(warming.value).toBeGreaterThan(0);
    const cooling = mixingRise({ mass: 1, massFraction: 0.4 }, { mass: 1, massFraction: 0.95 });
    expect(cooling.value).toBeLessThan(0);
    for (const { value, low, high } of [warming, cooling]) {
      expect(high - value).toBeCloseTo(0.15 * Math.abs(value), 12);
      expect(value - low).toBeCloseTo(0.15 * Math.abs(value), 12);
    }
  });

  it("refuses what mix refuses", () => {
    expect(() => mixingRise({ mass: -1, massFraction: 0 }, WATER)).toThrow(OutOfRangeError);
    expect(() => mixingRise(WATER, { mass: 1, massFraction: 1.1 })).toThrow(OutOfRangeError);
    const empty = { mass: 0, massFraction: 0 };
    expect(() => mixingRise(empty, empty)).toThrow(OutOfRangeError);
  });
});

describe("partOfVolume(volume, strength, referenceTemperature)", () => {
  // European Pharmacopoeia 5.5, alcoholometric tables at 20 °C: % vol, % mass, density kg/m³. memory
  it.each([
    [0.4, 0.333, 948.05],
    [0.96, 0.9384, 807.42],
  ])("weighs a litre as the pharmacopoeia does at a strength of %d", (strength, share, density) => {
    const { mass, massFraction } = partOfVolume(1e-3, strength, 20);
    expect(Math.abs(mass * 1000 - density)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(massFraction - share)).toBeLessThanOrEqual(0.5e-4 + 1e-6);
  });

  it("weighs twice as much for twice the volume", () => {
    const once = partOfVolume(0.2e-3, 0.7, 15);
    const twice = partOfVolume(0.4e-3, 0.7, 15);
    expect(twice.mass / once.mass).toBeCloseTo(2, 14);
    expect(twice.massFraction).toBe(once.massFraction);
  });

  it("is plain water or plain alcohol at the ends", () => {
    expect(partOfVolume(1e-3, 0, 20).massFraction).toBe(0);
    expect(partOfVolume(1e-3, 1, 20).massFraction).toBeCloseTo(1, 12);
  });

  it.each([-1e-9, 1.01, Number.NaN])("refuses %d m³", (volume) => {
    expect(() => partOfVolume(volume, 0.4, 20)).toThrow(/^volume must/);
  });

  it.each([-0.01, 1.01, Number.NaN])("refuses a strength of %d", (strength) => {
    expect(() => partOfVolume(1e-3, strength, 20)).toThrow(OutOfRangeError);
  });

  it.each([-21, 41, Number.NaN])("refuses a reference temperature of %d °C", (temperature) => {
    expect(() => partOfVolume(1e-3, 0.4, temperature)).toThrow(OutOfRangeError);
  });
});
