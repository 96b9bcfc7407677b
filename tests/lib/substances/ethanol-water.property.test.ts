import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hydrometerReading, trueStrength } from "../../../lib/laws/hydrometer.ts";
import {
  massFractionFromUkProof,
  massFractionFromUsProof,
  ukProof,
  usProof,
} from "../../../lib/laws/proof.ts";
import {
  density,
  ETHANOL_WATER_LIMITS,
  freezingPoint,
  FREEZING_LIMITS,
  heatCapacity,
  massFraction,
  massFractionFromDensity,
  massFractionFromMoleFraction,
  moleFraction,
  strength,
  viscosity,
} from "../../../lib/substances/ethanol-water.ts";

const RUNS = { seed: 20250, numRuns: 2000 };
const ROUND_TRIP = 1e-11;

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const fraction = between(0, 1);
const reference = between(
  ETHANOL_WATER_LIMITS.referenceTemperature.min,
  ETHANOL_WATER_LIMITS.referenceTemperature.max,
);
/** A mass fraction and a temperature at which it is liquid, a little off the edge. */
const liquid = fc
  .tuple(
    fraction,
    between(ETHANOL_WATER_LIMITS.temperature.min, ETHANOL_WATER_LIMITS.temperature.max),
  )
  .filter(
    ([p, t]) => t >= 0 || p >= FREEZING_LIMITS.massFraction.max || t > freezingPoint(p) + 1e-9,
  );

describe("ethanol and water, for any values in range", () => {
  it("strength and massFraction undo each other", () => {
    fc.assert(
      fc.property(fraction, reference, (value, t) => {
        expect(Math.abs(strength(massFraction(value, t), t) - value)).toBeLessThan(ROUND_TRIP);
        expect(Math.abs(massFraction(strength(value, t), t) - value)).toBeLessThan(ROUND_TRIP);
      }),
      RUNS,
    );
  });

  it("density and massFractionFromDensity undo each other", () => {
    fc.assert(
      fc.property(liquid, ([p, t]) => {
        expect(Math.abs(massFractionFromDensity(density(p, t), t) - p)).toBeLessThan(ROUND_TRIP);
      }),
      RUNS,
    );
  });

  it("density falls and strength rises with the mass fraction", () => {
    fc.assert(
      fc.property(liquid, fraction, ([p, t], step) => {
        const more = p + (1 - p) * step;
        fc.pre(more - p > 1e-9);
        expect(density(more, t)).toBeLessThan(density(p, t));
        const at = Math.abs(t);
        expect(strength(more, at)).toBeGreaterThan(strength(p, at));
        expect(massFraction(more, at)).toBeGreaterThan(massFraction(p, at));
      }),
      RUNS,
    );
  });

  it("density falls with temperature above 10 % mass", () => {
    fc.assert(
      fc.property(between(0.1, 1), reference, reference, (p, a, b) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        expect(Math.sign(density(p, a) - density(p, b))).toBe(Math.sign(b - a));
      }),
      RUNS,
    );
  });

  it("a mixture is never lighter than its parts side by side", () => {
    fc.assert(
      fc.property(fraction, reference, (p, t) => {
        const apart = p / density(1, t) + (1 - p) / density(0, t);
        expect(density(p, t) * apart).toBeGreaterThanOrEqual(1 - 1e-12);
      }),
      RUNS,
    );
  });

  it("mole and mass fractions undo each other", () => {
    fc.assert(
      fc.property(fraction, (p) => {
        expect(Math.abs(massFractionFromMoleFraction(moleFraction(p)) - p)).toBeLessThan(1e-14);
      }),
      RUNS,
    );
  });

  it("proofs undo themselves", () => {
    fc.assert(
      fc.property(fraction, (p) => {
        expect(Math.abs(massFractionFromUsProof(usProof(p)) - p)).toBeLessThan(ROUND_TRIP);
        expect(Math.abs(massFractionFromUkProof(ukProof(p)) - p)).toBeLessThan(ROUND_TRIP);
      }),
      RUNS,
    );
  });

  it("a hydrometer's reading and the true strength undo each other", () => {
    fc.assert(
      fc.property(between(0.1, 0.9), reference, reference, (value, t, t0) => {
        expect(Math.abs(trueStrength(hydrometerReading(value, t, t0), t, t0) - value)).toBeLessThan(
          10 * ROUND_TRIP,
        );
      }),
      RUNS,
    );
  });

  it("viscosity and heat capacity stay between their table's least and greatest", () => {
    fc.assert(
      fc.property(fraction, between(3, 41), (p, t) => {
        expect(viscosity(p, t)).toBeGreaterThan(0.6e-3);
        expect(viscosity(p, t)).toBeLessThan(7.2e-3);
        expect(heatCapacity(p, t)).toBeGreaterThan(2258);
        expect(heatCapacity(p, t)).toBeLessThan(4400);
      }),
      RUNS,
    );
  });
});
