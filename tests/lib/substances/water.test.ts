import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { density, saturationPressure } from "../../../lib/substances/water.ts";

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
