import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  conductivity,
  density,
  densityWide,
  expansion,
  heatCapacity,
  saturationPressure,
  viscosity,
} from "../../../lib/substances/water.ts";

describe("density(temperature)", () => {
  // Tanaka et al., Metrologia 38 (2001) 301–309, recommended table, air-free, 101 325 Pa. seen
  it.each([
    [0, 999.8428],
    [4, 999.9749],
    [5, 999.9668],
    [10, 999.7027],
    [20, 998.2067],
    [25, 997.047],
    [30, 995.6488],
    [33, 994.7041],
    [37, 993.329],
    [40, 992.2152],
  ])("gives the table's value at %d °C", (temperature, value) => {
    expect(Math.abs(density(temperature) - value)).toBeLessThanOrEqual(1e-4);
  });

  it("is greatest at 3.983 °C", () => {
    expect(density(3.983)).toBeGreaterThan(density(3.9));
    expect(density(3.983)).toBeGreaterThan(density(4.1));
  });

  it("agrees with the industrial formulation once compressed", () => {
    // IAPWS R7-97(2012), Table 5: v(300 K, 3 MPa) = 0.00100215168 m³/kg. seen
    // Isothermal compressibility of water near 27 °C: 4.50e-10 1/Pa. memory
    const compressed = density(26.85) * (1 + 4.5e-10 * (3e6 - 101_325));
    expect(Math.abs(compressed - 1 / 0.00100215168)).toBeLessThan(0.02);
  });

  it("agrees with Kell's formula from 0 to 40 °C", () => {
    // Kell (1975), J. Chem. Eng. Data 20, 97: rational formula, scale of 1968. memory
    for (let t = 0; t <= 40; t += 5) {
      const above =
        999.83952 +
        t *
          (16.945176 +
            t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
      expect(Math.abs(density(t) - above / (1 + 16.87985e-3 * t))).toBeLessThan(0.005);
    }
  });

  it("answers at both edges", () => {
    expect(density(0)).toBeGreaterThan(999);
    expect(density(40)).toBeGreaterThan(992);
  });

  it.each([-0.001, 40.001, Number.NaN, Infinity])("refuses %d °C", (temperature) => {
    expect(() => density(temperature)).toThrow(OutOfRangeError);
  });
});

describe("saturationPressure(temperature)", () => {
  // IAPWS SR1-86 (1992), equation 1 evaluated apart. computed
  it.each([
    [10, 1228.11],
    [25, 3169.82],
    [30, 4246.92],
    [40, 7385.11],
    [60, 19_947.4],
  ])("at %d °C is %d Pa", (temperature, value) => {
    expect(Math.abs(saturationPressure(temperature) / value - 1)).toBeLessThan(5e-6);
  });

  it("at 300 K is the published test value", () => {
    // Wagner & Pruss (1993), as the test of a public library gives it: 3536.7 Pa. seen
    expect(Math.abs(saturationPressure(26.85) - 3536.7)).toBeLessThan(0.1);
  });

  it("agrees with a handbook's older table", () => {
    // CRC Handbook of Chemistry and Physics (1992–93), vapour pressure of water, scale of 1968. seen
    const table = { 0: 0.61129, 10: 1.2281, 20: 2.3388, 25: 3.169, 40: 7.3814, 60: 19.932 };
    for (const [temperature, kilopascal] of Object.entries(table))
      expect(
        Math.abs(saturationPressure(Number(temperature)) / (1000 * kilopascal) - 1),
      ).toBeLessThan(1e-3);
  });

  it("is an atmosphere at the boiling point", () => {
    // Normal boiling point on the scale of 1990: 99.974 °C. memory
    expect(saturationPressure(99.974) / 101_325).toBeCloseTo(1, 4);
  });

  it("answers at both edges", () => {
    expect(saturationPressure(0)).toBeCloseTo(611.2, 1);
    expect(saturationPressure(100)).toBeGreaterThan(101_325);
  });

  it.each([-0.001, 100.001, Number.NaN, Infinity])("refuses %d °C", (temperature) => {
    expect(() => saturationPressure(temperature)).toThrow(OutOfRangeError);
  });
});

/** °C, J/(kg K), W/(m K), Pa s, 1/K: IAPWS SR6-08 (2011) evaluated apart. computed */
const AT_ATMOSPHERE = [
  [0, 4219.32, 0.555648, 0.00179178, -6.7767e-5],
  [10, 4195.14, 0.578787, 0.0013059, 8.79273e-5],
  [20, 4184.19, 0.598005, 0.00100157, 0.00020681],
  [25, 4181.45, 0.606502, 0.000889997, 0.000257292],
  [30, 4179.9, 0.614377, 0.000797206, 0.000303376],
  [40, 4179.36, 0.62848, 0.000652733, 0.000385473],
  [50, 4181.23, 0.64063, 0.000546527, 0.000457774],
  [60, 4184.9, 0.651016, 0.000466039, 0.000523258],
] as const;

const OUTSIDE = [-0.001, 100.001, Number.NaN, Infinity];

describe("heatCapacity(temperature)", () => {
  it.each(AT_ATMOSPHERE)("at %d °C is %d J/(kg K)", (temperature, value) => {
    expect(Math.abs(heatCapacity(temperature) - value)).toBeLessThanOrEqual(0.006);
  });

  it("is least near 36 °C", () => {
    for (const other of [30, 42]) expect(heatCapacity(36)).toBeLessThan(heatCapacity(other));
  });

  it("answers at both edges", () => {
    // IAPWS-95: 4.2194 kJ/(kg K) at 0.01 °C; 4.2157 at 100 °C. memory
    expect(Math.abs(heatCapacity(0) / 4219.4 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(heatCapacity(100) / 4215.7 - 1)).toBeLessThan(1e-3);
  });

  it.each(OUTSIDE)("refuses %d °C", (temperature) => {
    expect(() => heatCapacity(temperature)).toThrow(OutOfRangeError);
  });
});

describe("conductivity(temperature)", () => {
  it.each(AT_ATMOSPHERE)("at %d °C, beside %d J/(kg K), is %d W/(m K)", (temperature, _, value) => {
    expect(Math.abs(conductivity(temperature) / value - 1)).toBeLessThan(2e-6);
  });

  it("answers at both edges", () => {
    expect(conductivity(0)).toBeLessThan(conductivity(100));
    // Handbook value at 100 °C: 0.679 W/(m K). memory
    expect(Math.abs(conductivity(100) - 0.679)).toBeLessThan(0.005);
  });

  it.each(OUTSIDE)("refuses %d °C", (temperature) => {
    expect(() => conductivity(temperature)).toThrow(OutOfRangeError);
  });
});

describe("viscosity(temperature)", () => {
  it("agrees with the formulation evaluated apart", () => {
    for (const [temperature, , , value] of AT_ATMOSPHERE)
      expect(Math.abs(viscosity(temperature) / value - 1)).toBeLessThan(5e-6);
  });

  it("at 20 °C is the reference value for viscometers", () => {
    // ISO/TR 3666: 1.0016 mPa s at 20 °C, ±0.17 %. memory
    expect(Math.abs(viscosity(20) / 1.0016e-3 - 1)).toBeLessThan(1.7e-3);
  });

  it("falls with the temperature, edge to edge", () => {
    for (let t = 0; t < 100; t += 5) expect(viscosity(t + 5)).toBeLessThan(viscosity(t));
  });

  it.each(OUTSIDE)("refuses %d °C", (temperature) => {
    expect(() => viscosity(temperature)).toThrow(OutOfRangeError);
  });
});

describe("expansion(temperature)", () => {
  it("agrees with the formulation evaluated apart", () => {
    for (const [temperature, , , , value] of AT_ATMOSPHERE)
      expect(Math.abs(expansion(temperature) - value)).toBeLessThan(1e-9);
  });

  it("is the slope of the density, edge to edge", () => {
    for (let t = 0.5; t < 100; t += 8.5) {
      const slope = Math.log(densityWide(t - 0.5) / densityWide(t + 0.5));
      expect(Math.abs(expansion(t) - slope)).toBeLessThan(1e-7);
    }
    expect(expansion(3.9)).toBeLessThan(0);
    expect(expansion(4.1)).toBeGreaterThan(0);
  });

  it.each(OUTSIDE)("refuses %d °C", (temperature) => {
    expect(() => expansion(temperature)).toThrow(OutOfRangeError);
  });
});

describe("densityWide(temperature)", () => {
  it("agrees with the metrologists' density up to 40 °C", () => {
    // A kilopascal of pressure is worth 0.0006 kg/m³.
    for (let t = 0; t <= 40; t += 2)
      expect(Math.abs(densityWide(t) - density(t))).toBeLessThan(2e-3);
  });

  it("agrees with Kell's formula from 40 to 100 °C", () => {
    // Kell (1975), J. Chem. Eng. Data 20, 97, his scale of 1968 being up to 0.026 K above. memory
    for (let t = 40; t <= 100; t += 5) {
      const above =
        999.83952 +
        t *
          (16.945176 +
            t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
      expect(Math.abs(densityWide(t) - above / (1 + 16.87985e-3 * t))).toBeLessThan(0.025);
    }
  });

  it("answers at both edges", () => {
    expect(densityWide(0)).toBeCloseTo(999.843, 2);
    // Handbook value at 100 °C: 958.35 kg/m³. memory
    expect(Math.abs(densityWide(100) - 958.35)).toBeLessThan(0.03);
  });

  it.each(OUTSIDE)("refuses %d °C", (temperature) => {
    expect(() => densityWide(temperature)).toThrow(OutOfRangeError);
  });
});
