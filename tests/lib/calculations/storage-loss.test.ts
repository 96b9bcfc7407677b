import { describe, expect, it } from "vitest";
import { STORAGE_STUDIES } from "../../../lib/laws/storage-loss.ts";
import { evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const DAY = 86_400;
const STORE = {
  "storage-loss.temperature": 5,
  storeTime: 14 * DAY,
  shareThatMustRemain: 0.5,
  rateAtReferenceLow: 0.0016474 / DAY,
  rateAtReferenceHigh: 0.046 / DAY,
  studyTemperature: 5,
  activationEnergyLow: 43_300,
  activationEnergyHigh: 96_650,
};

describe("storage-loss", () => {
  it("halves as fast as orange juice at the fast end, where it was measured", () => {
    // Zhang et al. (2016): 0.046 a day at 5 °C. seen; half-life 15.07 d. computed
    expect(valuesOf("storage-loss", STORE)["timeToLimit"]! / DAY).toBeCloseTo(15.07, 2);
  });

  it.each([
    // Hsu et al. (2012): 43.3 and 96.65 kJ/mol; from 5 to 25 °C 3.511 and 16.5 times. computed
    [43_300, 3.511],
    [96_650, 16.5],
  ])("gains by the fridge what %d J/mol says", (energy, gain) => {
    const one = { ...STORE, activationEnergyLow: energy, activationEnergyHigh: energy };
    const warm = valuesOf("storage-loss", { ...one, "storage-loss.temperature": 25 });
    expect(warm["rateHigh"]! / valuesOf("storage-loss", one)["rateHigh"]! / gain).toBeCloseTo(1, 2);
  });

  it("widens on either side of the temperature that was measured at", () => {
    const spread = (temperature: number): number => {
      const values = valuesOf("storage-loss", {
        ...STORE,
        "storage-loss.temperature": temperature,
      });
      return values["rateHigh"]! / values["rateLow"]!;
    };
    expect(spread(0)).toBeGreaterThan(spread(5));
    expect(spread(15)).toBeGreaterThan(spread(5));
    expect(spread(5)).toBeCloseTo(0.046 / 0.0016474, 9);
  });

  it("says by its own equation what is left, whichever energy counts", () => {
    for (const temperature of [2, 20]) {
      const at = { ...STORE, "storage-loss.temperature": temperature };
      const v = valuesOf("storage-loss", at);
      const carried =
        (0.046 / DAY) *
        Math.exp(
          (v["energyFast"]! / 8.314462618) * (1 / v["studyKelvin"]! - 1 / v["storeKelvin"]!),
        );
      expect(v["rateHigh"]! / carried).toBeCloseTo(1, 9);
      expect(v["remainingLow"]).toBeCloseTo(Math.exp(-carried * 14 * DAY), 9);
    }
  });

  it("moves with a pasted log of the fridge", () => {
    const at = (temperature: number): number =>
      valuesOf("storage-loss", {
        fridgeLog: [
          [0, temperature],
          [3600, temperature],
        ],
      })["timeToLimit"]!;
    expect(at(3)).toBeGreaterThan(at(6));
  });

  it("carries the doubt of the log to the time", () => {
    const { low, value, high } = evaluated("storage-loss", {}).values["timeToLimit"]!;
    expect(low).toBeLessThan(value);
    expect(high).toBeGreaterThan(value);
  });

  it("starts from what was measured near the temperature of a fridge", () => {
    const { rateAtReferenceLow: slow, rateAtReferenceHigh: fast } = evaluated("storage-loss", {})
      .inputs as Readonly<Record<string, number>>;
    const cold = STORAGE_STUDIES.filter(({ temperature }) => temperature <= 5);
    const rates = cold.map(({ rate }) => rate * DAY);
    expect(slow! * DAY).toBeCloseTo(Math.min(...rates), 4);
    expect(fast! * DAY).toBeCloseTo(Math.max(...rates), 9);
  });

  it("has all at the start", () => {
    const values = valuesOf("storage-loss", { ...STORE, storeTime: 0 });
    expect([values["remainingLow"], values["remainingHigh"]]).toEqual([1, 1]);
  });

  it("refuses ends the wrong way round", () => {
    expect(refusalsOf("storage-loss", { ...STORE, rateAtReferenceHigh: 1e-9 })).toEqual([
      { input: "rateAtReferenceHigh", says: expect.stringMatching(/cannot be below/) as string },
    ]);
    expect(refusalsOf("storage-loss", { ...STORE, activationEnergyHigh: 20e3 })).toEqual([
      { input: "activationEnergyHigh", says: expect.stringMatching(/cannot be below/) as string },
    ]);
    const equal = { ...STORE, activationEnergyHigh: 43_300 };
    expect(refusalsOf("storage-loss", equal)).toEqual([]);
  });

  it("takes no energy that is a misprint in circulation", () => {
    // Abbasi & Niakousari (2008): 137 cal/mol, 0.57 kJ/mol. seen
    expect(refusalsOf("storage-loss", { ...STORE, activationEnergyLow: 573 })[0]?.input).toBe(
      "activationEnergyLow",
    );
  });
});
