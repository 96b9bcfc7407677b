import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  ETHANOL_PRESSURE_SPREAD,
  ethanolSaturationPressure,
} from "../../../lib/substances/vapour-pressure.ts";

describe("ethanolSaturationPressure(temperature)", () => {
  it.each([
    // Static measurements at 30 and 50 °C: Pemberton & Mash, J. Chem. Thermodyn. 10 (1978) 867. seen
    // (values), memory (which paper)
    [30, 10.472],
    [50, 29.515],
    [50, 29.467],
  ])("at %d °C is %d kPa as measured", (temperature, kilopascal) => {
    const ratio = ethanolSaturationPressure(temperature) / 1000 / kilopascal;
    expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(0.003);
  });

  it.each([
    // VDI Heat Atlas, saturation table, 300 and 320 K: 0.9 and 0.6 % above every equation below. seen
    [26.85, 8.84],
    [46.85, 25.46],
  ])("at %d °C is within its spread of %d kPa in a table", (temperature, kilopascal) => {
    const ratio = ethanolSaturationPressure(temperature) / 1000 / kilopascal;
    expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(ETHANOL_PRESSURE_SPREAD);
  });

  it.each([
    // The same equation elsewhere. computed
    [10, 3.1347],
    [25, 7.8741],
    [30, 10.462],
    [40, 17.904],
    [60, 46.93],
  ])("at %d °C is %d kPa as computed from its coefficients", (temperature, kilopascal) => {
    const ratio = ethanolSaturationPressure(temperature) / 1000 / kilopascal;
    expect(Math.abs(ratio - 1)).toBeLessThanOrEqual(1e-4);
  });

  it("is within its spread of five other published equations", () => {
    // NIST WebBook (two Antoine sets), Poling et al. appendix A (Antoine), the mmHg set of textbooks,
    // Perry's Handbook table 2-8, each in kPa. computed from coefficients seen
    const others = [
      [10, [3.1285, 3.1153, 3.1406, 3.1063, 3.1517]],
      [25, [7.8764, 7.8691, 7.8851, 7.8332, 7.9241]],
      [60, [46.899, 46.898, 46.821, 46.751, 47.018]],
    ] as const;
    for (const [temperature, values] of others)
      for (const value of values)
        expect(Math.abs(value / (ethanolSaturationPressure(temperature) / 1000) - 1)).toBeLessThan(
          ETHANOL_PRESSURE_SPREAD,
        );
  });

  it("is one atmosphere at 78.3 °C", () => {
    // NIST WebBook, normal boiling point 351.5 K ± 0.2. seen
    expect(ethanolSaturationPressure(351.3 - 273.15)).toBeLessThan(101_325);
    expect(ethanolSaturationPressure(351.7 - 273.15)).toBeGreaterThan(101_325);
  });

  it("takes 42.4 kJ/mol to evaporate at 300 K by the slope of its logarithm", () => {
    // VDI Heat Atlas, 42.369 kJ/mol at 300 K; Clausius and Clapeyron with an ideal gas, 2 %. seen
    const t = 26.85;
    const slope =
      Math.log(ethanolSaturationPressure(t + 0.01) / ethanolSaturationPressure(t - 0.01)) / 0.02;
    expect(Math.abs((8.314 * 300 ** 2 * slope) / 42_369 - 1)).toBeLessThan(0.02);
  });

  it("rises all the way", () => {
    let before = 0;
    for (let t = 0; t <= 100; t++) {
      const here = ethanolSaturationPressure(t);
      expect(here).toBeGreaterThan(before);
      before = here;
    }
  });

  it.each([-0.01, 100.01, Number.NaN])("refuses %d °C", (temperature) => {
    expect(() => ethanolSaturationPressure(temperature)).toThrow(OutOfRangeError);
  });
});
