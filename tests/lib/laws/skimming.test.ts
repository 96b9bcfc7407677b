import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { skimming } from "../../../lib/laws/skimming.ts";

const MASSES = { ascorbicAcid: 0.05, lecithin: 0.03, ethanol: 0.047, water: 0.4 };

describe("skimming(volume, masses, skimmedVolume, gasShare)", () => {
  it("takes of every ingredient what is in the liquid of the foam", () => {
    // 50 mL of foam, four fifths gas, off half a litre: a fiftieth of everything.
    const { volumeLost, shareLost, lost } = skimming(0.5e-3, MASSES, 0.05e-3, 0.8);
    expect(volumeLost).toBeCloseTo(0.01e-3, 15);
    expect(shareLost).toBeCloseTo(0.02, 12);
    expect(lost.ascorbicAcid).toBeCloseTo(0.001, 12);
    expect(lost.water).toBeCloseTo(0.008, 12);
  });

  it("loses nothing and creates nothing", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, fc.double({ min: 0, max: 0.999, noNaN: true }), (skimmed, gas) => {
        const foam = (skimmed * 0.5e-3) / (1 - gas);
        const { volumeLost, volumeLeft, lost, left } = skimming(0.5e-3, MASSES, foam, gas);
        expect(volumeLost + volumeLeft).toBeCloseTo(0.5e-3, 15);
        for (const name of ["ascorbicAcid", "lecithin", "ethanol", "water"] as const) {
          expect(lost[name] + left[name]).toBeCloseTo(MASSES[name], 12);
          expect(left[name]).toBeGreaterThanOrEqual(0);
        }
        // The liquid left is as strong as it was.
        expect(left.ascorbicAcid * 0.5e-3).toBeCloseTo(MASSES.ascorbicAcid * volumeLeft, 15);
      }),
      { seed: 4, numRuns: 500 },
    );
  });

  it("takes nothing without foam, and everything when all of it is foam", () => {
    expect(skimming(0.5e-3, MASSES, 0, 0.8).left).toEqual(MASSES);
    expect(skimming(0.5e-3, MASSES, 0.5e-3 / (1 - 0.7), 0.7).volumeLeft).toBe(0);
  });

  it("refuses more than there is, and says how much foam that would be", () => {
    try {
      skimming(0.5e-3, MASSES, 2.6e-3, 0.8);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(OutOfRangeError);
      const { quantity, limits } = error as OutOfRangeError;
      expect(quantity).toBe("skimmedVolume");
      expect(limits.max).toBeCloseTo(2.5e-3, 12);
    }
  });

  it.each([
    [0, 0, 0.8],
    [1.1, 0, 0.8],
    [Number.NaN, 0, 0.8],
    [5e-4, -1e-9, 0.8],
    [5e-4, Number.NaN, 0.8],
    [5e-4, 1e-5, -0.01],
    [5e-4, 1e-5, 1],
    [5e-4, 1e-5, Number.NaN],
  ])("refuses a volume of %d, %d skimmed with a gas share of %d", (volume, skimmed, gas) => {
    expect(() => skimming(volume, MASSES, skimmed, gas)).toThrow(OutOfRangeError);
  });

  it.each([-1e-9, 1001, Number.NaN])("refuses an ingredient of %d kg, by its name", (water) => {
    expect(() => skimming(5e-4, { ...MASSES, water }, 1e-5, 0.8)).toThrow(/^water/);
  });
});
