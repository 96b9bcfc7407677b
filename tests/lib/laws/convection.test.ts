import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  beakerConductance,
  evaporativeFlux,
  horizontalNusselt,
  overallCoefficient,
  radiationCoefficient,
  verticalNusselt,
  waterCoefficient,
  wetWall,
} from "../../../lib/laws/convection.ts";

function off(found: number, published: number): number {
  return Math.abs(found / published - 1);
}

const BEAKER = { radius: 0.04, wall: 0.0015, base: 0.0015, height: 0.09, conductivity: 1.2 };

describe("verticalNusselt(rayleigh, prandtl)", () => {
  it("agrees with worked examples", () => {
    // A public heat-transfer library's example, after Incropera 9.2: Gr 2.63e9, Pr 0.69. seen
    expect(off(verticalNusselt(2.63e9 * 0.69, 0.69), 147.16185)).toBeLessThan(1e-7);
    // Incropera & DeWitt, Example 9.2: Ra 1.8144e9, h 7.0053 from k 0.0338, 0.71 m. seen (worked solutions)
    expect(off((verticalNusselt(1.8144e9, 0.69) * 0.0338) / 0.71, 7.0053)).toBeLessThan(1e-4);
    // Çengel, Example 9-2: Ra 7.649e8, Pr 0.7202: Nu 113.345. seen (the same)
    expect(off(verticalNusselt(7.64903e8, 0.7202), 113.345)).toBeLessThan(1e-5);
  });

  it("goes to conduction with no buoyancy and to the cube root with much", () => {
    expect(verticalNusselt(0, 7)).toBeCloseTo(0.825 ** 2, 12);
    expect(off(verticalNusselt(1e12, 7) / verticalNusselt(1e11, 7), 10 ** (1 / 3))).toBeLessThan(
      0.03,
    );
  });

  it.each([
    [-1, 7],
    [1.1e12, 7],
    [Number.NaN, 7],
    [1e8, 0.009],
    [1e8, 1.1e5],
    [1e8, Number.NaN],
  ])("refuses Ra %d, Pr %d", (rayleigh, prandtl) => {
    expect(() => verticalNusselt(rayleigh, prandtl)).toThrow(OutOfRangeError);
  });
});

describe("horizontalNusselt(rayleigh, layering)", () => {
  it("agrees with worked examples", () => {
    // A public heat-transfer library's examples: Pr 5.54, Gr 3.21e8. seen
    expect(off(horizontalNusselt(5.54 * 3.21e8, "unstable"), 181.7312)).toBeLessThan(1e-6);
    expect(off(horizontalNusselt(5.54 * 3.21e8, "stable"), 55.44565)).toBeLessThan(1e-6);
    // Çengel, Example 9-2, down: Ra 1.19516e7. computed from its inputs (the printed figure is a slip)
    expect(off(horizontalNusselt(1.19516e7, "stable"), 15.875)).toBeLessThan(1e-4);
  });

  it("changes its form at 1e7 by no more than 6 %", () => {
    expect(
      off(horizontalNusselt(1.0001e7, "unstable"), horizontalNusselt(1e7, "unstable")),
    ).toBeLessThan(0.07);
    expect(horizontalNusselt(1e4, "unstable")).toBeCloseTo(5.4, 12);
  });

  it.each([
    [9e3, "unstable"],
    [1.1e11, "unstable"],
    [Number.NaN, "unstable"],
    [9e4, "stable"],
    [1.1e10, "stable"],
    [Number.NaN, "stable"],
  ] as const)("refuses Ra %d, %s", (rayleigh, layering) => {
    expect(() => horizontalNusselt(rayleigh, layering)).toThrow(OutOfRangeError);
  });
});

describe("waterCoefficient(water, wall, height)", () => {
  it("agrees with the correlation worked out apart", () => {
    // Churchill–Chu with IAPWS SR6-08, g 9.81: 541.266 W/(m² K). computed
    expect(off(waterCoefficient(40, 35, 0.1), 541.266)).toBeLessThan(1e-3);
  });

  it("is the same whichever is warmer, but for the film, and grows with the difference", () => {
    expect(waterCoefficient(35, 40, 0.1)).toBeCloseTo(waterCoefficient(40, 35, 0.1), 10);
    expect(waterCoefficient(40, 30, 0.1)).toBeGreaterThan(waterCoefficient(40, 35, 0.1));
    expect(waterCoefficient(40, 40, 0.1)).toBeLessThan(10);
  });

  it.each([
    [7.9, 35, 0.1],
    [96, 35, 0.1],
    [40, 7.9, 0.1],
    [40, Number.NaN, 0.1],
    [40, 35, 0],
    [40, 35, 11],
  ])("refuses water of %d at %d °C, %d m", (water, wall, height) => {
    expect(() => waterCoefficient(water, wall, height)).toThrow(OutOfRangeError);
  });
});

describe("wetWall(inside, outside, height, thickness, wallConductivity)", () => {
  // Churchill–Chu with IAPWS SR6-08, surfaces iterated, 90 mm of 1.5 mm glass, g 9.81. computed
  it.each([
    [36, 30, 983.995, 33.6606, 32.4306, 163.999],
    [34, 33, 108.82, 33.5693, 33.4332, 108.82],
  ])("from %d to %d °C passes %d W/m²", (inside, outside, flux, inner, outer, overall) => {
    const wall = wetWall(inside, outside, 0.09, 0.0015, 1.2);
    expect(off(wall.flux, flux)).toBeLessThan(1e-3);
    expect(Math.abs(wall.innerSurface - inner)).toBeLessThan(2e-3);
    expect(Math.abs(wall.outerSurface - outer)).toBeLessThan(2e-3);
    expect(off(wall.overall, overall)).toBeLessThan(1e-3);
  });

  it("carries the same through each layer, either way", () => {
    for (const [inside, outside] of [
      [60, 20],
      [20, 60],
      [30, 30.02],
    ] as const) {
      const wall = wetWall(inside, outside, 0.09, 0.0015, 1.2);
      const outer =
        waterCoefficient(outside, wall.outerSurface, 0.09) * (wall.outerSurface - outside);
      expect(off(outer, wall.flux)).toBeLessThan(1e-6);
      expect(off(((wall.innerSurface - wall.outerSurface) * 1.2) / 0.0015, wall.flux)).toBeLessThan(
        1e-6,
      );
      expect(Math.sign(wall.flux)).toBe(Math.sign(inside - outside));
    }
  });

  it("passes less than the wall alone, at its thinnest as at its thickest", () => {
    expect(wetWall(36, 30, 0.09, 0.0015, 1.2).overall).toBeLessThan(1.2 / 0.0015);
    expect(wetWall(95, 8, 0.09, 0.1, 1.2).overall).toBeLessThan(12);
    const thin = wetWall(36, 30, 0.09, 0, 1.2);
    expect(thin.innerSurface).toBe(thin.outerSurface);
  });

  it.each([
    ["temperatureDifference", 30, 30, 0.09, 0.0015, 1.2],
    ["inside", 7, 30, 0.09, 0.0015, 1.2],
    ["outside", 30, 96, 0.09, 0.0015, 1.2],
    ["inside", Number.NaN, 30, 0.09, 0.0015, 1.2],
    ["height", 36, 30, 0, 0.0015, 1.2],
    ["thickness", 36, 30, 0.09, -0.001, 1.2],
    ["thickness", 36, 30, 0.09, 0.11, 1.2],
    ["conductivity", 36, 30, 0.09, 0.0015, 0],
  ])("refuses by %s: %d to %d °C, %d m high, %d m of %d W/(m K)", (quantity, ...given) => {
    expect(() => wetWall(...given)).toThrow(expect.objectContaining({ quantity }) as Error);
  });
});

describe("overallCoefficient(inside, outside, thickness, wallConductivity)", () => {
  // 1/U = 1/h₁ + d/k + 1/h₂. computed
  it.each([
    [400, 600, 0.0015, 184.61538],
    [400, 600, 0.002, 171.42857],
    [500, 10, 0.0015, 9.68523],
  ])("of %d and %d W/(m² K) with %d m of glass is %d", (inside, outside, thickness, value) => {
    expect(overallCoefficient(inside, outside, thickness, 1.2)).toBeCloseTo(value, 5);
  });

  it("agrees with a textbook's window", () => {
    // Çengel, Example 3-2: 0.8 × 1.5 m, 8 mm of 0.78 W/(m K), h 10 and 40, 30 K: 266 W. seen (worked solutions)
    expect(off(overallCoefficient(10, 40, 0.008, 0.78) * 0.8 * 1.5 * 30, 266.161)).toBeLessThan(
      1e-5,
    );
  });

  it.each([
    [0, 600, 0.0015, 1.2],
    [400, 1.1e5, 0.0015, 1.2],
    [400, 600, -0.001, 1.2],
    [400, 600, 0.0015, 0],
    [400, Number.NaN, 0.0015, 1.2],
  ])("refuses %d, %d, %d, %d", (inside, outside, thickness, k) => {
    expect(() => overallCoefficient(inside, outside, thickness, k)).toThrow(OutOfRangeError);
  });
});

describe("beakerConductance(beaker, inside, outside)", () => {
  it("agrees with the series worked out apart", () => {
    // Resistances 0.110524, 0.0542512 and 0.0710196 K/W at the side. computed
    const { side, base, total } = beakerConductance(BEAKER, 400, 600);
    expect(off(side, 4.24097)).toBeLessThan(2e-6);
    expect(off(base, 0.927978)).toBeLessThan(2e-6);
    expect(off(total, 5.16895)).toBeLessThan(2e-6);
  });

  it("comes to a flat wall where the beaker is wide, and grows with its height", () => {
    const wide = { ...BEAKER, radius: 10 };
    const flat = overallCoefficient(400, 600, 0.0015, 1.2) * 2 * Math.PI * 10 * 0.09;
    expect(off(beakerConductance(wide, 400, 600).side, flat)).toBeLessThan(2e-4);
    const tall = beakerConductance({ ...BEAKER, height: 0.18 }, 400, 600);
    expect(tall.side / beakerConductance(BEAKER, 400, 600).side).toBeCloseTo(2, 12);
  });

  it.each([
    { radius: 0 },
    { radius: 11 },
    { wall: -0.001 },
    { wall: 0.11 },
    { base: Number.NaN },
    { height: 0 },
    { conductivity: 0 },
  ])("refuses %o", (change) => {
    expect(() => beakerConductance({ ...BEAKER, ...change }, 400, 600)).toThrow(OutOfRangeError);
    expect(() => beakerConductance(BEAKER, 0, 600)).toThrow(OutOfRangeError);
  });
});

describe("evaporativeFlux(water, air, humidity, airSpeed)", () => {
  // Carrier's equation with IAPWS SR1-86 (1992). computed
  it.each([
    [40, 20, 0.5, 550.056],
    [32, 22, 0.4, 327.57],
  ])("of water at %d °C in air of %d °C and %d is %d W/m²", (water, air, humidity, value) => {
    const flux = evaporativeFlux(water, air, humidity, 0);
    expect(off(flux.value, value)).toBeLessThan(1e-4);
    expect(off(flux.low, 0.74 * value)).toBeLessThan(1e-4);
    expect(flux.high).toBeGreaterThan(flux.value);
  });

  it("agrees with the handbook's form of the equation", () => {
    // ASHRAE Handbook: W = (0.089 + 0.0782 v) Δp/Y in kPa, kJ/kg. memory
    const driving = evaporativeFlux(40, 20, 0.5, 0).value / 88.497;
    expect(off(evaporativeFlux(40, 20, 0.5, 0).value, 89 * driving)).toBeLessThan(0.01);
    const [still, moving] = [evaporativeFlux(40, 20, 0.5, 0), evaporativeFlux(40, 20, 0.5, 1)];
    expect(off(moving.value - still.value, 78.2 * driving)).toBeLessThan(0.01);
  });

  it("is nothing in air as moist as the surface, and negative where dew settles", () => {
    expect(evaporativeFlux(20, 20, 1, 0).value).toBeCloseTo(0, 9);
    const dew = evaporativeFlux(5, 25, 0.8, 0.2);
    expect(dew.value).toBeLessThan(0);
    expect(dew.low).toBeLessThan(dew.value);
    expect(dew.high).toBeGreaterThan(dew.value);
  });

  it("answers at its edges", () => {
    expect(evaporativeFlux(95, 0, 0, 2).value).toBeGreaterThan(evaporativeFlux(0, 50, 1, 0).value);
  });

  it.each([
    [-0.1, 20, 0.5, 0],
    [95.1, 20, 0.5, 0],
    [40, -0.1, 0.5, 0],
    [40, 50.1, 0.5, 0],
    [40, 20, -0.1, 0],
    [40, 20, 1.1, 0],
    [40, 20, 0.5, -0.1],
    [40, 20, 0.5, 2.1],
    [Number.NaN, 20, 0.5, 0],
  ])("refuses water %d, air %d, humidity %d, speed %d", (water, air, humidity, speed) => {
    expect(() => evaporativeFlux(water, air, humidity, speed)).toThrow(OutOfRangeError);
  });
});

describe("radiationCoefficient(surface, room, emissivity)", () => {
  it("agrees with the law worked out apart", () => {
    // Stefan and Boltzmann. computed
    expect(radiationCoefficient(40, 20, 0.95)).toBeCloseTo(6.00953, 4);
    expect(radiationCoefficient(32, 20, 0.9)).toBeCloseTo(5.46709, 4);
    for (const [t, value] of [
      [20, 5.71402],
      [25, 6.01141],
      [30, 6.31894],
      [40, 6.96513],
    ] as const)
      expect(radiationCoefficient(t, t, 1)).toBeCloseTo(value, 4);
  });

  it("is nothing for a mirror", () => {
    expect(radiationCoefficient(95, 0, 0)).toBe(0);
  });

  it.each([
    [-0.1, 20, 0.9],
    [95.1, 20, 0.9],
    [40, 51, 0.9],
    [40, Number.NaN, 0.9],
    [40, 20, 1.1],
    [40, 20, -0.1],
  ])("refuses %d, %d, %d", (surface, room, emissivity) => {
    expect(() => radiationCoefficient(surface, room, emissivity)).toThrow(OutOfRangeError);
  });
});
