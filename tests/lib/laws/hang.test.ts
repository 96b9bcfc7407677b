import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  afloat,
  buoyantForce,
  emptyCentre,
  floatingDepth,
  insideLevel,
} from "../../../lib/laws/hang.ts";
import { STANDARD_GRAVITY } from "../../../lib/laws/gravity.ts";

/** 90 mm wide, glass of 0.2 kg with its centre 50 mm up, 0.3 kg of water in it. */
const BEAKER = {
  vesselMass: 0.2,
  vesselDiameter: 0.09,
  wallThickness: 0.0013,
  baseThickness: 0.002,
  vesselCentre: 0.05,
  contentsMass: 0.3,
  contentsDensity: 1000,
};
const BATH = 997.05;

describe("buoyantForce(bathDensity, vesselDiameter, immersion)", () => {
  it("leaves 1.1711 N of half a kilogram at 60 mm", () => {
    // Archimedes, 90 mm, 997.05 kg/m³. computed
    const left = 0.5 * STANDARD_GRAVITY - buoyantForce(BATH, 0.09, 0.06);
    expect(left).toBeCloseTo(1.1711, 4);
  });

  it("is less than nothing for 0.500 kg at 80 mm", () => {
    // −0.073 N: a half-filled beaker needs a clamp. computed
    expect(0.5 * STANDARD_GRAVITY - buoyantForce(BATH, 0.09, 0.08)).toBeCloseTo(-0.073, 3);
  });

  it("grows with depth, and with the square of the diameter", () => {
    const once = buoyantForce(1000, 0.05, 0.04);
    expect(buoyantForce(1000, 0.05, 0.12) / once).toBeCloseTo(3, 12);
    expect(buoyantForce(1000, 0.1, 0.04) / once).toBeCloseTo(4, 12);
    expect(buoyantForce(1000, 0.1, 0)).toBe(0);
  });

  it.each([
    [699, 0.09, 0.06],
    [1501, 0.09, 0.06],
    [1000, 0.019, 0.06],
    [1000, 0.51, 0.06],
    [1000, 0.09, -0.001],
    [1000, 0.09, 1.01],
    [Number.NaN, 0.09, 0.06],
    [1000, Number.NaN, 0.06],
    [1000, 0.09, Number.NaN],
  ])("refuses %d kg/m³, %d m, %d m", (density, diameter, immersion) => {
    expect(() => buoyantForce(density, diameter, immersion)).toThrow(OutOfRangeError);
  });
});

describe("floatingDepth(mass, bathDensity, vesselDiameter)", () => {
  it("is 78.828 mm for half a kilogram in 90 mm", () => {
    // Archimedes, 997.05 kg/m³. computed
    expect(floatingDepth(0.5, BATH, 0.09)).toBeCloseTo(0.078828, 6);
  });

  it("is the beaker’s height for the textbook’s half-full beaker that barely floats", () => {
    // Halliday, Resnick and Walker, fluids, problem 75: 390 g of glass round 500 cm³ floats when half full
    // with the water at its rim, so the glass has 2.79 g/cm³ (printed, seen).
    const outside = 0.39 / 2790 + 500e-6;
    const height = outside / ((Math.PI / 4) * 0.09 ** 2);
    expect(floatingDepth(0.39 + 0.25, 1000, 0.09) / height).toBeCloseTo(1, 3);
  });

  it("is where the push equals the weight", () => {
    const depth = floatingDepth(0.7, 1010, 0.08);
    expect(buoyantForce(1010, 0.08, depth)).toBeCloseTo(0.7 * STANDARD_GRAVITY, 12);
  });

  it.each([0, 61, Number.NaN])("refuses a mass of %d kg", (mass) => {
    expect(() => floatingDepth(mass, 1000, 0.09)).toThrow(OutOfRangeError);
  });
  it.each([0.019, 0.51, Number.NaN])("refuses a diameter of %d m", (diameter) => {
    expect(() => floatingDepth(0.5, 1000, diameter)).toThrow(OutOfRangeError);
  });
});

describe("emptyCentre(vesselDiameter, vesselHeight, wallThickness, baseThickness)", () => {
  it("is 50 mm up a low beaker of 90 mm", () => {
    // 1.4 diameters high, wall 1.3 mm, base 2 mm: wall π × 8.87 × 12.4 × 0.13 = 44.9 cm³ at 64 mm, base
    // 12.7 cm³ at 1 mm. computed
    expect(emptyCentre(0.09, 0.126, 0.0013, 0.002)).toBeCloseTo(0.0501, 4);
  });

  it("comes near the middle of a tall tube, and down to the base of a flat dish", () => {
    expect(emptyCentre(0.02, 1, 0.005, 0.0003)).toBeCloseTo(0.5, 2);
    expect(emptyCentre(0.5, 0.02, 0.0003, 0.005)).toBeLessThan(0.004);
  });

  it.each([
    [0.019, 0.1, 0.001, 0.002],
    [0.1, 0.019, 0.001, 0.002],
    [0.1, 0.1, 0.0002, 0.002],
    [0.1, 0.1, 0.0051, 0.002],
    [0.1, 0.1, 0.001, 0.0051],
    [0.1, 0.1, Number.NaN, 0.002],
    [0.1, 0.1, 0.001, Number.NaN],
  ])("refuses %d, %d, %d, %d m", (...given) => {
    expect(() => emptyCentre(...given)).toThrow(OutOfRangeError);
  });
});

describe("insideLevel(beaker)", () => {
  it("is the base and the liquid on it", () => {
    // 300 cm³ in π/4 × 8.74² = 59.99 cm² is 5.00 cm. computed
    expect(insideLevel(BEAKER)).toBeCloseTo(0.052, 5);
    expect(insideLevel({ ...BEAKER, contentsMass: 0 })).toBe(0.002);
  });

  it.each([
    { vesselDiameter: 0.019 },
    { vesselDiameter: 0.51 },
    { baseThickness: 0.0002 },
    { baseThickness: Number.NaN },
    { contentsMass: -1 },
    { contentsMass: Number.NaN },
    { contentsDensity: 600 },
  ])("refuses %o", (moved) => {
    expect(() => insideLevel({ ...BEAKER, ...moved })).toThrow(OutOfRangeError);
  });
});

describe("afloat(beaker, bathDensity)", () => {
  it("stands barely with 0.3 kg in it, and falls over empty", () => {
    // GM = KB + BM − KG − free surface, 3.906 and −18.179 mm. computed
    expect(afloat(BEAKER, BATH).metacentricHeight).toBeCloseTo(0.003906, 6);
    expect(afloat({ ...BEAKER, contentsMass: 0 }, BATH).metacentricHeight).toBeCloseTo(
      -0.018179,
      6,
    );
  });

  it("floats as deep as floatingDepth says", () => {
    expect(afloat(BEAKER, BATH).depth).toBe(floatingDepth(0.5, BATH, 0.09));
  });

  it("rights itself exactly where the righting moment of a leaning cylinder begins", () => {
    // An empty, thin cylinder leaning by θ: the wedge that dips and the one that rises move the centre of
    // the displaced water sideways by tan θ D²/(16 d) and up by half of that times tan θ. Lean it by a little
    // and compare lever arms about the centre of mass.
    const empty = { ...BEAKER, contentsMass: 0 };
    const { depth, centre, metacentricHeight } = afloat(empty, BATH);
    const lean = 1e-4;
    const sideways = (Math.tan(lean) * 0.09 ** 2) / (16 * depth);
    const up = depth / 2 + (sideways * Math.tan(lean)) / 2;
    const arm = sideways * Math.cos(lean) + (up - centre) * Math.sin(lean);
    expect(arm / Math.sin(lean)).toBeCloseTo(metacentricHeight, 8);
  });

  it.each([
    { vesselMass: 0 },
    { vesselMass: Number.NaN },
    { vesselCentre: -0.001 },
    { vesselCentre: 1.1 },
    { vesselDiameter: 0.6 },
    { wallThickness: 0.006 },
    { contentsMass: 51 },
  ])("refuses %o", (moved) => {
    expect(() => afloat({ ...BEAKER, ...moved }, BATH)).toThrow(OutOfRangeError);
  });

  it("refuses a bath that is no water", () => {
    expect(() => afloat(BEAKER, 600)).toThrow(OutOfRangeError);
  });
});
