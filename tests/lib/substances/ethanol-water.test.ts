import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { apparentDensity } from "../../../lib/laws/buoyancy.ts";
import {
  density,
  densityRange,
  excessEnthalpy,
  FREEZING_LIMITS,
  freezingPoint,
  HEAT_CAPACITY_SPREAD,
  ethanolHeatCapacity,
  heatCapacity,
  heatCapacitySpread,
  massFraction,
  massFractionFromDensity,
  massFractionFromMoleFraction,
  MOLAR_MASS,
  moleFraction,
  strength,
  viscosity,
  VISCOSITY_SPREAD,
} from "../../../lib/substances/ethanol-water.ts";
import { density as waterDensity } from "../../../lib/substances/water.ts";
import { OIML_DENSITIES } from "../../helpers/oiml-densities.ts";

const SIXTY_FAHRENHEIT = (60 - 32) / 1.8;
/** No fraction: below, above, nothing. */
const NO_FRACTION = [-1e-9, 1 + 1e-9, Number.NaN, Infinity];

describe("density(massFraction, temperature)", () => {
  // OIML R 22 (1975). seen
  it.each(OIML_DENSITIES)(
    "gives the printed table at a strength of %d and 20 °C",
    (byVolume, value) => {
      expect(Math.abs(density(massFraction(byVolume), 20) - value)).toBeLessThanOrEqual(0.006);
    },
  );

  // Osborne, McKelvy & Bearce, Bulletin of the Bureau of Standards 9 (1913) 424–425, g/mL of that time
  // (1 mL = 1.000028 cm³), a measurement independent of OIML's. Strength and temperature vary together:
  // a wrong set of C coefficients fails here and nowhere else. seen (in a reprint)
  it.each([
    [0.45, 10, 932.26],
    [0.45, 20, 924.72],
    [0.45, 30, 916.92],
    [0.45, 40, 908.84],
    [0.5, 10, 921.62],
    [0.5, 40, 897.5],
    [0.55, 10, 910.55],
    [0.55, 20, 902.58],
    [0.55, 30, 894.37],
    [0.55, 40, 885.89],
    [0.6, 10, 899.27],
    [0.6, 40, 874.17],
    [0.65, 10, 887.74],
    [0.65, 20, 879.48],
    [0.65, 30, 871],
    [0.65, 40, 862.27],
    [0.7, 10, 876.02],
    [0.7, 40, 850.25],
    [0.75, 10, 864.08],
    [0.75, 20, 855.64],
    [0.75, 30, 846.98],
    [0.75, 40, 838.09],
    [0.8, 10, 851.97],
    [0.8, 40, 825.78],
    [0.85, 10, 839.51],
    [0.85, 20, 830.95],
    [0.85, 30, 822.2],
    [0.85, 40, 813.22],
  ])("agrees with a measurement at a mass fraction of %d and %d °C", (p, t, perMillilitre) => {
    expect(Math.abs(density(p, t) - perMillilitre / 1.000028)).toBeLessThanOrEqual(0.15);
  });

  // USP 29, Alcoholometric Table: specific gravity in air, 25/25 °C and 60/60 °F. seen
  it.each([
    [0.05, 0.9927, 0.9928],
    [0.1, 0.9862, 0.9866],
    [0.12, 0.9838, 0.9843],
    [0.18, 0.9767, 0.9779],
    [0.2, 0.9744, 0.9759],
    [0.25, 0.9685, 0.9708],
    [0.28, 0.9648, 0.9676],
    [0.33, 0.9581, 0.9617],
  ])("gives the pharmacopoeia's specific gravities at a strength of %d", (q, at25, at60F) => {
    const p = massFraction(q, SIXTY_FAHRENHEIT);
    const gravity = (t: number) => apparentDensity(density(p, t)) / apparentDensity(density(0, t));
    expect(Math.abs(gravity(25) - at25)).toBeLessThanOrEqual(1e-4);
    expect(Math.abs(gravity(SIXTY_FAHRENHEIT) - at60F)).toBeLessThanOrEqual(1e-4);
  });

  // Tralles's alcoholmetrical table, in Ure, A Dictionary of Arts: gravity at 60 °F against water at its
  // greatest density. seen
  it.each([
    [0.3, 0.9646],
    [0.4, 0.951],
    [0.6, 0.9126],
    [0.8, 0.8631],
  ])("agrees with a table of 1811 at a strength of %d", (q, gravity) => {
    const here = density(massFraction(q, SIXTY_FAHRENHEIT), SIXTY_FAHRENHEIT);
    expect(Math.abs(here / 999.975 - gravity)).toBeLessThanOrEqual(3e-4);
  });

  it("has a water end within 0.008 kg/m³ of the formula for water", () => {
    for (let t = 0; t <= 40; t++)
      expect(Math.abs(density(0, t) - waterDensity(t))).toBeLessThan(0.008);
  });

  it("expands as ethanol does", () => {
    // Cubic expansion of ethanol at 20 °C, handbooks: 1.08e-3 to 1.10e-3 1/K. memory
    const expansion = (density(1, 19.5) - density(1, 20.5)) / density(1, 20);
    expect(Math.abs(expansion - 1.09e-3)).toBeLessThan(0.01e-3);
  });

  it("answers at its edges", () => {
    expect(density(0, 0)).toBeCloseTo(999.84, 1);
    expect(density(0, 40)).toBeCloseTo(992.22, 1);
    expect(density(1, -20)).toBeCloseTo(823.12, 1);
    expect(density(1, 40)).toBeCloseTo(772.06, 0);
    expect(density(0.1, freezingPoint(0.1))).toBeGreaterThan(980);
  });

  it.each(NO_FRACTION)("refuses a mass fraction of %d", (p) => {
    expect(() => density(p, 20)).toThrow(OutOfRangeError);
  });

  it.each([-20.001, 40.001, Number.NaN])("refuses %d °C", (t) => {
    expect(() => density(0.5, t)).toThrow(OutOfRangeError);
  });

  it.each([
    [0, -0.01],
    [0.1, -4.5],
    [0.295, -20],
  ])("refuses the frozen mixture of %d at %d °C and says where it melts", (p, t) => {
    expect(() => density(p, t)).toThrow(
      expect.objectContaining({
        quantity: "temperature",
        limits: { min: freezingPoint(p), max: 40, unit: "°C" },
      }),
    );
  });
});

describe("densityRange(temperature)", () => {
  it("runs from ethanol to water", () => {
    expect(densityRange(20)).toEqual({ min: density(1, 20), max: density(0, 20) });
  });

  it("ends at the weakest liquid below 0 °C", () => {
    expect(densityRange(-4.47).max).toBeCloseTo(density(0.1, -4.47), 9);
    for (const t of [-0.5, -7, -13, -19.9]) {
      const weakest = massFractionFromDensity(densityRange(t).max, t);
      expect(freezingPoint(weakest)).toBeCloseTo(t, 9);
    }
  });

  it.each([-20.001, 40.001, Number.NaN])("refuses %d °C", (t) => {
    expect(() => densityRange(t)).toThrow(OutOfRangeError);
  });
});

describe("massFractionFromDensity(density, temperature)", () => {
  it("finds the diluted alcohol of the pharmacopoeia", () => {
    // USP, Diluted Alcohol: 41.0 to 42.0 % mass, specific gravity 0.935 to 0.937 at 60/60 °F, in air. seen
    const water = density(0, SIXTY_FAHRENHEIT);
    const p = massFractionFromDensity(0.936 * (water - 1.2) + 1.2, SIXTY_FAHRENHEIT);
    expect(p).toBeGreaterThanOrEqual(0.41);
    expect(p).toBeLessThanOrEqual(0.42);
  });

  it("undoes density, exactly at the ends", () => {
    for (const t of [-20, -5, 0, 20, 40]) {
      const { min } = densityRange(t);
      expect(massFractionFromDensity(min, t)).toBe(1);
      for (const p of [0.31, 0.5, 0.9])
        expect(massFractionFromDensity(density(p, t), t)).toBeCloseTo(p, 11);
    }
    expect(massFractionFromDensity(density(0, 20), 20)).toBe(0);
  });

  it.each([
    [700, 20],
    [998.3, 20],
    [990, -5],
    [Number.NaN, 20],
  ])("refuses %d kg/m³ at %d °C and says what is possible", (value, t) => {
    expect(() => massFractionFromDensity(value, t)).toThrow(
      expect.objectContaining({
        quantity: "density",
        limits: { ...densityRange(t), unit: "kg/m³" },
      }),
    );
  });

  it.each([-20.001, 40.001, Number.NaN])("refuses %d °C", (t) => {
    expect(() => massFractionFromDensity(900, t)).toThrow(OutOfRangeError);
  });
});

describe("strength(massFraction, referenceTemperature)", () => {
  // USP 29, Alcoholometric Table (NBS Bulletin 9, 424–425): % mass against % vol at 60 °F. seen
  it.each([
    [0.05, 6.24],
    [0.1, 12.39],
    [0.2, 24.47],
    [0.3, 36.18],
    [0.32, 38.46],
  ])("gives the pharmacopoeia's strength at a mass fraction of %d", (p, percent) => {
    expect(Math.abs(100 * strength(p, SIXTY_FAHRENHEIT) - percent)).toBeLessThanOrEqual(0.01);
  });

  it("depends on the temperature that it is counted at", () => {
    // 27 CFR 19.1: 50 % vol at 60 °F. The formula makes it 50.06 % vol at 20 °C. seen
    expect(strength(massFraction(0.5, SIXTY_FAHRENHEIT))).toBeCloseTo(0.5006, 4);
  });

  it("contracts: 96.4 volumes at 15 °C from 52 of ethanol and 48 of water", () => {
    // 19th-century handbook text on alcohol: most contraction, to 96.35 volumes, near 15 °C. seen
    const mass = 52 * density(1, 15) + 48 * density(0, 15);
    const volume = mass / density((52 * density(1, 15)) / mass, 15);
    expect(Math.abs(volume - 96.35)).toBeLessThanOrEqual(0.12);
  });

  it.each([0, 10, 20, 40])("keeps water and ethanol as they are at %d °C", (t) => {
    expect(strength(0, t)).toBe(0);
    expect(strength(1, t)).toBe(1);
  });

  it.each(NO_FRACTION)("refuses a mass fraction of %d", (p) => {
    expect(() => strength(p)).toThrow(OutOfRangeError);
  });

  it.each([-0.001, 40.001, Number.NaN])("refuses a reference of %d °C", (t) => {
    expect(() => strength(0.5, t)).toThrow(OutOfRangeError);
  });
});

describe("massFraction(strength, referenceTemperature)", () => {
  // USP 29, Alcoholometric Table: % vol at 60 °F against % mass. seen
  it.each([
    [0.05, 4],
    [0.1, 8.05],
    [0.12, 9.68],
    [0.18, 14.61],
    [0.2, 16.27],
    [0.25, 20.44],
    [0.28, 22.97],
    [0.33, 27.24],
  ])("gives the pharmacopoeia's % mass at a strength of %d", (q, percent) => {
    expect(Math.abs(100 * massFraction(q, SIXTY_FAHRENHEIT) - percent)).toBeLessThanOrEqual(0.01);
  });

  it("agrees with a pharmacist's worked example", () => {
    // Belgian pharmacy example, interpolated table: 40 % vol is 33.27 % mass and 31.57 g in 100 mL. seen
    const p = massFraction(0.4);
    expect(Math.abs(100 * p - 33.27)).toBeLessThanOrEqual(0.05);
    expect(Math.abs((p * density(p, 20)) / 10 - 31.57)).toBeLessThanOrEqual(0.01);
  });

  // Reduction table of the US Gauging Manual: water for 100 volumes of spirit, volumes at 60 °F. seen
  it.each([
    [0.4, 0.3, 33.5, 0.15],
    [0.5, 0.4, 25.6, 0.15],
    [0.7, 0.4, 77.6, 0.25],
    [0.95, 0.5, 95.9, 0.25],
    [0.95, 0.2, 382, 0.6],
  ])("dilutes %d to %d with the table's water", (from, to, volumes, tolerance) => {
    const t = SIXTY_FAHRENHEIT;
    const [p, q] = [massFraction(from, t), massFraction(to, t)];
    const water = (100 * density(p, t) * (p / q - 1)) / density(0, t);
    expect(Math.abs(water - volumes)).toBeLessThanOrEqual(tolerance);
  });

  it.each([0, 10, 20, 40])("gives 0 and 1 back exactly at %d °C", (t) => {
    expect(massFraction(0, t)).toBe(0);
    expect(massFraction(1, t)).toBe(1);
  });

  it("answers next to its ends", () => {
    expect(massFraction(1e-300)).toBeGreaterThanOrEqual(0);
    expect(massFraction(1e-6) / 1e-6).toBeCloseTo(0.789239 / 0.99820123, 5);
    expect(massFraction(1 - 2 ** -53)).toBeLessThanOrEqual(1);
  });

  it.each(NO_FRACTION)("refuses a strength of %d", (q) => {
    expect(() => massFraction(q)).toThrow(OutOfRangeError);
  });

  it.each([-0.001, 40.001, Number.NaN])("refuses a reference of %d °C", (t) => {
    expect(() => massFraction(0.5, t)).toThrow(OutOfRangeError);
  });
});

describe("freezingPoint(massFraction)", () => {
  // CRC Handbook, Concentrative properties of aqueous solutions: ethanol. memory
  it.each([
    [0, 0],
    [0.05, -2.09],
    [0.1, -4.47],
    [0.2, -10.92],
    [0.28, -18.43],
  ])("gives the handbook's value at %d", (p, t) => {
    expect(freezingPoint(p)).toBeCloseTo(t, 10);
  });

  it("starts with the slope of an ideal dilute solution", () => {
    // Cryoscopic constant of water 1.86 K kg/mol. memory
    const molality = 0.01 / 0.99 / MOLAR_MASS.ethanol;
    expect(freezingPoint(0.01)).toBeCloseTo(-1.86 * molality, 1);
  });

  it("reaches −20 °C at the end of its range", () => {
    expect(freezingPoint(FREEZING_LIMITS.massFraction.max)).toBeCloseTo(-20, 10);
  });

  it.each([-1e-9, 0.2955, 1, Number.NaN])("refuses a mass fraction of %d", (p) => {
    expect(() => freezingPoint(p)).toThrow(OutOfRangeError);
  });
});

describe("moleFraction(massFraction)", () => {
  it("is a half where the masses are as the molar masses", () => {
    const { ethanol, water } = MOLAR_MASS;
    expect(moleFraction(ethanol / (ethanol + water))).toBeCloseTo(0.5, 14);
  });

  it("keeps 0 and 1", () => {
    expect(moleFraction(0)).toBe(0);
    expect(moleFraction(1)).toBe(1);
  });

  it.each(NO_FRACTION)("refuses %d", (p) => {
    expect(() => moleFraction(p)).toThrow(OutOfRangeError);
  });
});

describe("massFractionFromMoleFraction(moleFraction)", () => {
  it("undoes moleFraction", () => {
    for (const p of [0, 0.1, 0.5, 0.9, 1])
      expect(massFractionFromMoleFraction(moleFraction(p))).toBeCloseTo(p, 14);
  });

  it.each(NO_FRACTION)("refuses %d", (x) => {
    expect(() => massFractionFromMoleFraction(x)).toThrow(OutOfRangeError);
  });
});

describe("viscosity(massFraction, temperature)", () => {
  // Bingham & Jackson, US Bureau of Standards (1917), abridged: mPa s at 0, 10, … 100 % mass. seen
  it.each([
    [0, [1.792, 3.311, 5.319, 6.94, 7.14, 6.58, 5.75, 4.762, 3.69, 2.732, 1.773]],
    [20, [1.005, 1.538, 2.183, 2.71, 2.91, 2.87, 2.67, 2.37, 2.008, 1.61, 1.2]],
    [40, [0.656, 0.907, 1.16, 1.368, 1.482, 1.499, 1.447, 1.344, 1.203, 1.035, 0.834]],
    [60, [0.469, 0.609, 0.736, 0.834, 0.893, 0.913, 0.902, 0.856, 0.789, 0.704, 0.592]],
  ])("gives the table's values at %d °C", (t, values) => {
    for (const [i, value] of values.entries())
      expect(1000 * viscosity(i / 10, t)).toBeCloseTo(value, 10);
  });

  // IAPWS R12-08 / SR6-08 (2011), water at 0.1 MPa, between the table's temperatures. seen
  it.each([
    [10, 1.3059],
    [30, 0.797206],
    [50, 0.546527],
  ])("agrees with water's at %d °C within the band", (t, value) => {
    expect(Math.abs((1000 * viscosity(0, t)) / value - 1)).toBeLessThan(VISCOSITY_SPREAD);
  });

  it("agrees with ethanol's at 25 °C within the band", () => {
    // CRC Handbook: 1.074 mPa s. memory
    expect(Math.abs((1000 * viscosity(1, 25)) / 1.074 - 1)).toBeLessThan(VISCOSITY_SPREAD);
  });

  it("falls with temperature and is greatest in the middle", () => {
    for (let p = 0; p <= 1; p += 0.05)
      for (let t = 0; t < 60; t += 2) expect(viscosity(p, t + 2)).toBeLessThan(viscosity(p, t));
    for (const t of [0, 20, 40, 60]) {
      expect(viscosity(0.45, t)).toBeGreaterThan(viscosity(0.25, t));
      expect(viscosity(0.45, t)).toBeGreaterThan(viscosity(0.7, t));
    }
  });

  it.each(NO_FRACTION)("refuses a mass fraction of %d", (p) => {
    expect(() => viscosity(p, 20)).toThrow(/^massFraction must/);
  });

  it.each([-0.001, 60.001, Number.NaN])("refuses %d °C", (t) => {
    expect(() => viscosity(0.5, t)).toThrow(OutOfRangeError);
  });
});

describe("heatCapacity(massFraction, temperature)", () => {
  // Perry's Chemical Engineers' Handbook, specific heats of aqueous solutions, ethyl alcohol: cal/(g K) at
  // 4.16, 11.5, 37, 61 and 100 % of moles. seen (in a stored copy)
  it.each([
    [3, [1.05, 1.02, 0.805, 0.67, 0.54]],
    [23, [1.02, 1.03, 0.86, 0.727, 0.577]],
    [41, [1.02, 1.03, 0.875, 0.748, 0.621]],
  ])("gives the handbook's values at %d °C", (t, values) => {
    for (const [i, x] of [0.0416, 0.115, 0.37, 0.61, 1].entries())
      expect(heatCapacity(massFractionFromMoleFraction(x), t) / 4184).toBeCloseTo(
        values[i] ?? Number.NaN,
        10,
      );
  });

  // IAPWS SR6-08 (2011), water at 0.1 MPa. seen
  it.each([
    [10, 4195.14],
    [20, 4184.19],
    [30, 4179.9],
    [40, 4179.36],
  ])("agrees with water's at %d °C", (t, value) => {
    expect(Math.abs(heatCapacity(0, t) / value - 1)).toBeLessThan(0.002);
  });

  it("agrees with ethanol's at 25 °C", () => {
    // NIST WebBook: 112.3 J/(mol K), 2440 J/(kg K). memory
    expect(Math.abs(heatCapacity(1, 25) - 2440)).toBeLessThan(50);
  });

  it("is above water's up to about 36 % mass", () => {
    // Dupré & Page, Proc. R. Soc. 16 (1868) 337: "up to an alcoholic strength of about 36 per cent". seen
    for (const p of [0.05, 0.1, 0.2, 0.3, 0.34])
      expect(heatCapacity(p, 25)).toBeGreaterThan(heatCapacity(0, 25));
    for (const p of [0.38, 0.5, 0.8]) expect(heatCapacity(p, 25)).toBeLessThan(heatCapacity(0, 25));
  });

  it("agrees with the heat of mixing's slope where that can be used", () => {
    // Larkin, J. Chem. Thermodyn. 7 (1975) 137–148: c_p = mean of the pure ones + dH^E/dT. seen
    for (let p = 0.3; p <= 1; p += 0.05)
      for (const t of [26, 33, 40]) {
        const x = moleFraction(p);
        const molarMass = x * MOLAR_MASS.ethanol + (1 - x) * MOLAR_MASS.water;
        const slope = (excessEnthalpy(x, t + 0.5) - excessEnthalpy(x, t - 0.5)) / molarMass;
        const other = (1 - p) * heatCapacity(0, t) + p * heatCapacity(1, t) + slope;
        expect(Math.abs(heatCapacity(p, t) / other - 1)).toBeLessThan(HEAT_CAPACITY_SPREAD);
      }
  });

  it("answers at its edges", () => {
    expect(heatCapacity(0, 3)).toBeCloseTo(4210, 6);
    expect(heatCapacity(1, 3)).toBeCloseTo(2259.36, 6);
    expect(heatCapacity(0, 41)).toBeCloseTo(4179, 6);
    // IAPWS SR6-08 (2011), water at 0.1 MPa: 4184.9 J/(kg K) at 60 °C. computed
    expect(Math.abs(heatCapacity(0, 60) - 4184.9)).toBeLessThan(1);
  });

  it("goes on from its table without a step", () => {
    for (const p of [0, 0.1, 0.4, 0.8, 1])
      expect(heatCapacity(p, 41.000001)).toBeCloseTo(heatCapacity(p, 41), 3);
  });

  it("rises above its table as the pure liquids do", () => {
    const ethanol = ethanolHeatCapacity(60) - ethanolHeatCapacity(41);
    const water = heatCapacity(0, 60) - heatCapacity(0, 41);
    expect(ethanol).toBeGreaterThan(150);
    for (const p of [0.25, 0.5, 1])
      expect(heatCapacity(p, 60) - heatCapacity(p, 41)).toBeCloseTo(
        p * ethanol + (1 - p) * water,
        8,
      );
  });

  it("stays within its band of the heat of mixing's slope above the table", () => {
    // Larkin (1975), as above: his excess falls where ours is held. seen
    for (let p = 0.05; p <= 1; p += 0.05)
      for (const t of [45, 52, 59]) {
        const x = moleFraction(p);
        const molarMass = x * MOLAR_MASS.ethanol + (1 - x) * MOLAR_MASS.water;
        const slope = (at: number): number =>
          (excessEnthalpy(x, at + 0.5) - excessEnthalpy(x, at - 0.5)) / molarMass;
        const lost = (slope(41) - slope(t)) / heatCapacity(p, t);
        expect(lost).toBeLessThan(0.026);
        expect(lost).toBeGreaterThan(-0.01);
      }
  });

  it.each(NO_FRACTION)("refuses a mass fraction of %d", (p) => {
    expect(() => heatCapacity(p, 20)).toThrow(/^massFraction must/);
  });

  it.each([2.999, 60.001, Number.NaN])("refuses %d °C", (t) => {
    expect(() => heatCapacity(0.5, t)).toThrow(OutOfRangeError);
  });
});

describe("heatCapacitySpread(temperature)", () => {
  it("is the table's band to its end and widens from there", () => {
    expect(heatCapacitySpread(3)).toBe(HEAT_CAPACITY_SPREAD);
    expect(heatCapacitySpread(41)).toBe(HEAT_CAPACITY_SPREAD);
    expect(heatCapacitySpread(50.5)).toBeCloseTo(0.05, 12);
    expect(heatCapacitySpread(60)).toBeCloseTo(0.06, 12);
  });

  it.each([2.999, 60.001, Number.NaN])("refuses %d °C", (t) => {
    expect(() => heatCapacitySpread(t)).toThrow(OutOfRangeError);
  });
});

describe("ethanolHeatCapacity(temperature)", () => {
  it("agrees with another evaluation at 25 °C", () => {
    // NIST WebBook: 112.3 to 112.4 J/(mol K). memory
    expect(Math.abs(ethanolHeatCapacity(25) * MOLAR_MASS.ethanol - 112.35)).toBeLessThan(0.1);
  });

  it("agrees with the mixtures' table at its warm end", () => {
    expect(Math.abs(ethanolHeatCapacity(41) / heatCapacity(1, 41) - 1)).toBeLessThan(0.01);
  });

  it("rises, edge to edge", () => {
    for (let t = 3; t < 60; t += 3)
      expect(ethanolHeatCapacity(t + 3)).toBeGreaterThan(ethanolHeatCapacity(t));
  });

  it.each([2.999, 60.001, Number.NaN])("refuses %d °C", (t) => {
    expect(() => ethanolHeatCapacity(t)).toThrow(OutOfRangeError);
  });
});

describe("excessEnthalpy(moleFraction, temperature)", () => {
  it("agrees with calorimetry near its least value at 25 °C", () => {
    // Calorimetry: about −780 J/mol at x = 0.15. memory
    expect(Math.abs(excessEnthalpy(0.15, 25) / -780 - 1)).toBeLessThan(0.15);
  });

  it("warms half a litre of water and spirit as a student measured", () => {
    // Physics forum measurement: 50 mL of water and 50 mL of 95 % vol, both at 22 °C, warm by 6.5 K. seen
    const spirit = massFraction(0.95);
    const ethanol = 50e-6 * density(spirit, 22) * spirit;
    const inSpirit = 50e-6 * density(spirit, 22) - ethanol;
    const water = 50e-6 * density(0, 22);
    const heat = (m: number, w: number): number =>
      (m / MOLAR_MASS.ethanol + w / MOLAR_MASS.water) *
      excessEnthalpy(moleFraction(m / (m + w)), 25);
    const mass = ethanol + inSpirit + water;
    const released = heat(ethanol, inSpirit) - heat(ethanol, inSpirit + water);
    const rise = released / (mass * heatCapacity(ethanol / mass, 25));
    expect(Math.abs(rise - 6.5)).toBeLessThan(1);
  });

  it("is zero for both pure liquids", () => {
    for (const t of [25, 60, 110]) {
      expect(excessEnthalpy(0, t)).toBe(0);
      expect(excessEnthalpy(1, t)).toBe(0);
    }
  });

  it("gives the formula's values, worked out apart", () => {
    // Larkin (1975), the same coefficients evaluated in another language. seen (coefficients)
    const found = [0.1, 0.15, 0.2, 0.3, 0.5].map((x) => Math.round(excessEnthalpy(x, 25)));
    expect(found).toEqual([-768, -810, -783, -666, -463]);
    expect(excessEnthalpy(0.15, 50)).toBeCloseTo(-439.8, 1);
  });

  it("fades as the liquids get warmer", () => {
    for (const x of [0.1, 0.2, 0.4])
      expect(excessEnthalpy(x, 50)).toBeGreaterThan(excessEnthalpy(x, 25));
  });

  it.each(NO_FRACTION)("refuses a mole fraction of %d", (x) => {
    expect(() => excessEnthalpy(x, 25)).toThrow(OutOfRangeError);
  });

  it.each([24.999, 110.001, Number.NaN])("refuses %d °C", (t) => {
    expect(() => excessEnthalpy(0.2, t)).toThrow(OutOfRangeError);
  });
});
