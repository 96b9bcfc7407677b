import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  BATH_LEVEL_LIMITS,
  bathLevel,
  deepestImmersion,
  largestGrid,
  roomiestGrid,
  waterToFill,
} from "../../../lib/laws/bath-level.ts";

const TANK = { bathLength: 0.3, bathWidth: 0.15, bathHeight: 0.15 };
const BEAKER = { vesselDiameter: 0.1, immersion: 0.08, count: 1 };
const RUNS = { seed: 20_250_101, numRuns: 300 } as const;

describe("bathLevel(tank, waterDepth, beakers)", () => {
  it("agrees with a sum by hand", () => {
    // π/4 × 10² × 8 = 628.3 cm³ over 30 × 15 = 450 cm² is 1.396 cm. computed
    const { displaced, levelRise, newDepth, overflow } = bathLevel(TANK, 0.1, BEAKER);
    expect(displaced).toBeCloseTo(628.3e-6, 7);
    expect(levelRise).toBeCloseTo(0.01396, 5);
    expect(newDepth).toBeCloseTo(0.11396, 5);
    expect(overflow).toBe(0);
  });

  it("keeps the water’s volume, in the tank and over the rim", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.15, noNaN: true }),
        fc.double({ min: 0, max: 0.15, noNaN: true }),
        fc.constantFrom(1, 2),
        (depth, immersion, count) => {
          let level;
          try {
            level = bathLevel(TANK, depth, { ...BEAKER, immersion, count });
          } catch (error) {
            expect(error).toMatchObject({ name: "OutOfRangeError", quantity: "immersion" });
            return;
          }
          const inTank = 0.045 * level.newDepth - level.displaced;
          expect(inTank + level.overflow).toBeCloseTo(0.045 * depth, 12);
          expect(level.newDepth).toBeLessThanOrEqual(0.15 + 1e-12);
          expect(level.newDepth).toBeGreaterThanOrEqual(immersion - 1e-12);
        },
      ),
      RUNS,
    );
  });

  it("lets run over just what has no room", () => {
    expect(bathLevel(TANK, 0.14, BEAKER).overflow).toBeCloseTo(628.3185e-6 - 450e-6, 9);
    const brim = 0.15 - bathLevel(TANK, 0.1, BEAKER).levelRise;
    expect(bathLevel(TANK, brim, BEAKER).overflow).toBeCloseTo(0, 12);
    expect(bathLevel(TANK, brim + 1e-6, BEAKER).overflow).toBeCloseTo(0.045e-6, 12);
  });

  it("takes a beaker down to the floor and not through it", () => {
    // The level has risen by d a/A once the bottom touches, so d = h₀/(1 − a/A).
    const touching = 0.06 / (1 - (Math.PI / 4) * (0.01 / 0.045));
    const at = (immersion: number) => bathLevel(TANK, 0.06, { ...BEAKER, immersion });
    expect(at(touching * (1 - 1e-12)).newDepth).toBeCloseTo(touching, 9);
    expect(() => at(touching * (1 + 1e-9))).toThrow(OutOfRangeError);
    expect(() => at(-1e-9)).toThrow(OutOfRangeError);
    expect(at(0)).toMatchObject({ levelRise: 0, newDepth: 0.06, displaced: 0 });
  });

  it.each([
    ["bathLength", { bathLength: 0.049 }],
    ["bathLength", { bathLength: 2.01 }],
    ["bathWidth", { bathWidth: Number.NaN }],
    ["bathHeight", { bathHeight: 0 }],
    ["vesselDiameter", { vesselDiameter: 0.151 }],
    ["vesselDiameter", { vesselDiameter: 0.019 }],
    ["count", { count: 0 }],
    ["count", { count: 4 }],
    ["waterDepth", { waterDepth: 0.151 }],
    ["waterDepth", { waterDepth: Number.NaN }],
    ["immersion", { immersion: Number.NaN }],
  ])("refuses by the name of %s", (quantity, moved) => {
    const given = { ...TANK, ...BEAKER, waterDepth: 0.1, ...moved };
    expect(() => bathLevel(given, given.waterDepth, given)).toThrow(
      expect.objectContaining({ name: "OutOfRangeError", quantity }) as Error,
    );
  });
});

describe("deepestImmersion(tank, waterDepth, beakers)", () => {
  it("is the depth of the water as the bottom touches, and the tank’s height where it runs over", () => {
    // 0.1/(1 − 78.54/450) = 121.1 mm. computed
    expect(deepestImmersion(TANK, 0.1, BEAKER)).toBeCloseTo(0.1211, 4);
    expect(deepestImmersion(TANK, 0.14, BEAKER)).toBe(0.15);
  });

  it.each([0.009, 0.151, Number.NaN])("refuses a depth of %d m", (depth) => {
    expect(() => deepestImmersion(TANK, depth, BEAKER)).toThrow(OutOfRangeError);
  });

  it("refuses beakers that do not fit", () => {
    expect(() => deepestImmersion(TANK, 0.1, { ...BEAKER, count: 4 })).toThrow(OutOfRangeError);
  });
});

describe("waterToFill(tank, newDepth, beakers)", () => {
  it("pours in what makes bathLevel end at the wanted depth", () => {
    const volume = waterToFill(TANK, 0.12, { ...BEAKER, count: 2 });
    const { newDepth } = bathLevel(TANK, volume / 0.045, { ...BEAKER, count: 2 });
    expect(newDepth).toBeCloseTo(0.12, 12);
  });

  it("is the whole tank without a beaker in the water", () => {
    expect(waterToFill(TANK, 0.15, { ...BEAKER, immersion: 0 })).toBeCloseTo(0.00675, 12);
  });

  it.each([
    [0.151, 0.08],
    [-0.001, 0],
    [0.07, 0.08],
    [Number.NaN, 0],
    [0.1, Number.NaN],
  ])("refuses a depth of %d m with %d m immersed", (depth, immersion) => {
    expect(() => waterToFill(TANK, depth, { ...BEAKER, immersion })).toThrow(OutOfRangeError);
  });

  it("refuses beakers that do not fit, and a tank that is none", () => {
    expect(() => waterToFill(TANK, 0.1, { ...BEAKER, count: 4 })).toThrow(/^count must/);
    expect(() => waterToFill({ ...TANK, bathWidth: 2.1 }, 0.1, BEAKER)).toThrow(/^bathWidth must/);
  });
});

describe("largestGrid(tank, vesselDiameter, clearance)", () => {
  it("counts beakers with a gap on every side", () => {
    // 2 × 100 + 3 × 20 = 260 mm go into 300 mm, 3 × 100 + 4 × 20 = 380 mm do not. computed
    expect(largestGrid(TANK, 0.1, 0.02)).toEqual({ along: 2, across: 1 });
    expect(largestGrid(TANK, 0.1, 0)).toEqual({ along: 3, across: 1 });
    expect(largestGrid(TANK, 0.1, 0.026)).toEqual({ along: 2, across: 0 });
  });

  it("takes what fits to the hair", () => {
    expect(largestGrid({ ...TANK, bathLength: 0.26 }, 0.1, 0.02).along).toBe(2);
    expect(largestGrid({ ...TANK, bathLength: 0.2599 }, 0.1, 0.02).along).toBe(1);
  });

  it.each([
    [0.019, 0],
    [0.1, -0.001],
    [0.1, BATH_LEVEL_LIMITS.clearance.max + 1e-9],
    [Number.NaN, 0],
    [0.1, Number.NaN],
  ])("refuses a diameter of %d m with a gap of %d m", (diameter, clearance) => {
    expect(() => largestGrid(TANK, diameter, clearance)).toThrow(OutOfRangeError);
  });

  it("refuses a tank that is none", () => {
    expect(() => largestGrid({ ...TANK, bathLength: 0.049 }, 0.1, 0)).toThrow(/^bathLength must/);
  });
});

describe("roomiestGrid(tank, vesselDiameter, count)", () => {
  it("puts one beaker in the middle and two side by side", () => {
    expect(roomiestGrid(TANK, 0.1, 1)).toMatchObject({ along: 1, across: 1 });
    expect(roomiestGrid(TANK, 0.1, 1).clearance).toBeCloseTo(0.025, 12);
    expect(roomiestGrid(TANK, 0.1, 2)).toMatchObject({ along: 2, across: 1 });
    expect(roomiestGrid(TANK, 0.05, 6)).toMatchObject({ along: 3, across: 2 });
  });

  it("leaves the wanted gap to as many as largestGrid counts, and not to one more", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.15, noNaN: true }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        fc.integer({ min: 1, max: 20 }),
        (diameter, wanted, count) => {
          const touching = largestGrid(TANK, diameter, 0);
          fc.pre(count <= touching.along * touching.across);
          const most = largestGrid(TANK, diameter, wanted);
          const { clearance } = roomiestGrid(TANK, diameter, count);
          // On the edge itself rounding decides.
          fc.pre(Math.abs(clearance - wanted) > 1e-9);
          expect(clearance > wanted).toBe(count <= most.along * most.across);
        },
      ),
      RUNS,
    );
  });

  it("says nothing is left where they touch, and refuses one more", () => {
    expect(roomiestGrid({ ...TANK, bathWidth: 0.1 }, 0.1, 3).clearance).toBeCloseTo(0, 12);
    expect(() => roomiestGrid(TANK, 0.1, 4)).toThrow(OutOfRangeError);
    expect(() => roomiestGrid(TANK, 0.1, Number.NaN)).toThrow(OutOfRangeError);
  });
});
