import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { diffusivity, DIFFUSIVITY_SPREAD } from "../../../lib/substances/diffusivity.ts";

const ATMOSPHERE = 101_325;

describe("diffusivity(vapour, temperature, pressure)", () => {
  it.each([
    // Perry's Handbook, 8th ed., table 2-324, 0.102 cm²/s. seen
    ["ethanol", 0, 1.02e-5, DIFFUSIVITY_SPREAD],
    // Welty, Wicks & Wilson, 3rd ed., D p = 1.337 m² Pa/s at 298 K, as reprinted by Benitez. seen
    ["ethanol", 24.85, 1.3195e-5, DIFFUSIVITY_SPREAD],
    // CRC Handbook (Marrero & Mason), 0.242 cm²/s; Welty, D p = 2.634 m² Pa/s at 298 K. seen
    ["water", 20, 2.42e-5, 0.04],
    ["water", 24.85, 2.5996e-5, 0.04],
  ] as const)(
    "of %s at %d °C is near the measured %d m²/s",
    (vapour, temperature, value, width) => {
      expect(Math.abs(diffusivity(vapour, temperature, ATMOSPHERE) / value - 1)).toBeLessThan(
        width,
      );
    },
  );

  it.each([
    // The rule with the increments of Poling et al. elsewhere. computed
    ["ethanol", 20, 1.1896e-5],
    ["ethanol", 25, 1.225337e-5],
    ["ethanol", 40, 1.33525e-5],
    ["water", 20, 2.43079e-5],
    ["water", 40, 2.72839e-5],
  ] as const)("of %s at %d °C is %d m²/s by the rule", (vapour, temperature, value) => {
    expect(Math.abs(diffusivity(vapour, temperature, ATMOSPHERE) / value - 1)).toBeLessThan(1e-4);
  });

  it("goes with T^1.75 and one over the pressure", () => {
    const cold = diffusivity("water", 0, 60e3);
    expect(diffusivity("water", 100, 60e3) / cold).toBeCloseTo((373.15 / 273.15) ** 1.75, 12);
    expect(diffusivity("water", 0, 90e3) / cold).toBeCloseTo(60 / 90, 12);
  });

  it("answers at every edge and refuses what lies past it", () => {
    for (const t of [0, 100])
      for (const p of [50e3, 104e3]) expect(diffusivity("ethanol", t, p)).toBeGreaterThan(0);
    for (const t of [-0.01, 100.01, Number.NaN])
      expect(() => diffusivity("ethanol", t, ATMOSPHERE)).toThrow(OutOfRangeError);
    for (const p of [49_999, 104_001, 0, Number.NaN])
      expect(() => diffusivity("ethanol", 20, p)).toThrow(OutOfRangeError);
  });
});
