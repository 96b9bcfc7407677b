import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { dissolving } from "../../../lib/laws/dissolving.ts";
import { ascorbicAcidSolubility } from "../../../lib/substances/ascorbic-acid.ts";

const WATER = { mass: 0.3, massFraction: 0, temperature: 20 };

describe("dissolving(ascorbicAcidMass, solvent)", () => {
  // Merck Index, 1 g in about 3 mL of water, 30 mL of 95 % alcohol and 50 mL of absolute alcohol. seen (in
  // reprints). Solvent in g for the gram.
  it.each([
    ["water", 3, 0],
    ["95 % alcohol", 30 * 0.8114, 0.9242],
    ["absolute alcohol", 50 * 0.7893, 1],
  ])("cannot tell about the handbook's gram in %s", (_, grams, massFraction) => {
    const { saturated, dissolves } = dissolving(1e-3, {
      ...WATER,
      mass: grams / 1000,
      massFraction,
    });
    expect(saturated.low).toBeLessThan(1);
    expect(saturated.high).toBeGreaterThan(1);
    expect(dissolves).toBe("unsure");
  });

  it("says yes up to the lower edge, no past the upper, and nothing between", () => {
    const { low, high } = ascorbicAcidSolubility(0.2, 10);
    const answer = (perKilogram: number) =>
      dissolving(perKilogram * 0.4, { mass: 0.4, massFraction: 0.2, temperature: 10 }).dissolves;
    expect(answer(0)).toBe("yes");
    expect(answer(low * (1 - 1e-12))).toBe("yes");
    expect(answer(low * (1 + 1e-12))).toBe("unsure");
    expect(answer(high * (1 - 1e-12))).toBe("unsure");
    expect(answer(high * (1 + 1e-12))).toBe("no");
  });

  it("counts only acid for each kilogram of solvent", () => {
    const one = dissolving(0.05, WATER);
    const ten = dissolving(0.5, { ...WATER, mass: 3 });
    expect(ten.saturated.value).toBeCloseTo(one.saturated.value, 12);
    expect(dissolving(0.1, WATER).saturated.value).toBeCloseTo(2 * one.saturated.value, 12);
    expect(one.saturation.value * one.saturated.value).toBeCloseTo(0.05 / 0.3, 12);
  });

  it("keeps its value inside its band, everywhere", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 1e-6, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        (acid, mass, massFraction, temperature) => {
          const { saturated } = dissolving(acid, { mass, massFraction, temperature });
          expect(saturated.low).toBeLessThanOrEqual(saturated.value);
          expect(saturated.high).toBeGreaterThanOrEqual(saturated.value);
          expect(Number.isFinite(saturated.high)).toBe(true);
        },
      ),
      { seed: 51, numRuns: 500 },
    );
  });

  it.each([-1e-9, 20.1, Number.NaN])("refuses %d kg of acid", (mass) => {
    expect(() => dissolving(mass, WATER)).toThrow(OutOfRangeError);
  });

  it.each([
    ["mass", 0, "solventMass"],
    ["mass", 101, "solventMass"],
    ["mass", Number.NaN, "solventMass"],
    ["massFraction", -0.01, "solventMassFraction"],
    ["massFraction", 1.01, "solventMassFraction"],
    ["temperature", -0.1, "temperature"],
    ["temperature", 50.1, "temperature"],
    ["temperature", Number.NaN, "temperature"],
  ])("refuses a solvent whose %s is %d", (part, value, quantity) => {
    expect(() => dissolving(0.01, { ...WATER, [part]: value })).toThrow(
      expect.objectContaining({ quantity }) as Error,
    );
  });
});
