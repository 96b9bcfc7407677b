import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { headspaceOxygen, OXYGEN_MOLAR_MASS, oxygenSolubility } from "../../../lib/laws/oxygen.ts";
import { ASCORBIC_ACID_MOLAR_MASS } from "../../../lib/substances/ascorbic-acid.ts";

const ATMOSPHERE = 101_325;
const BOTTLE = {
  headspaceVolume: 20e-6,
  liquidVolume: 250e-6,
  temperature: 20,
  pressure: ATMOSPHERE,
};

describe("oxygenSolubility(temperature, pressure)", () => {
  // APHA (1985), Benson & Krause: mg/L in fresh water under moist air. computed, by the equation seen
  it.each([
    [5, 12.771],
    [10, 11.288],
    [20, 9.0925],
  ])("is at %d °C %d mg/L", (temperature, milligrams) => {
    const ours = 1000 * oxygenSolubility(temperature, ATMOSPHERE);
    expect(Math.abs(ours / milligrams - 1)).toBeLessThan(2e-4);
  });

  it("agrees with an older laboratory table", () => {
    // 9.2 at 20 °C and 12.8 at 5 °C. seen (as quoted)
    expect(1000 * oxygenSolubility(20, ATMOSPHERE)).toBeCloseTo(9.2, 0);
    expect(1000 * oxygenSolubility(5, ATMOSPHERE)).toBeCloseTo(12.8, 1);
  });

  it("falls with warmth, and with the dry air's pressure", () => {
    for (let t = 0; t < 40; t++)
      expect(oxygenSolubility(t + 1, ATMOSPHERE)).toBeLessThan(oxygenSolubility(t, ATMOSPHERE));
    // Water's vapour at 20 °C is 2339 Pa, IAPWS SR1-86. seen
    const half = (ATMOSPHERE - 2339) / 2 + 2339;
    expect(oxygenSolubility(20, half) / oxygenSolubility(20, ATMOSPHERE)).toBeCloseTo(0.5, 5);
  });

  it.each([
    [-0.1, ATMOSPHERE],
    [40.1, ATMOSPHERE],
    [Number.NaN, ATMOSPHERE],
    [20, 49e3],
    [20, 121e3],
    [20, Number.NaN],
  ])("refuses %d °C at %d Pa", (temperature, pressure) => {
    expect(() => oxygenSolubility(temperature, pressure)).toThrow(OutOfRangeError);
  });
});

describe("headspaceOxygen(bottle, ascorbicAcidMass)", () => {
  it("takes 5.5 mg of acid for each mg of oxygen, or twice that", () => {
    // Molar masses 176.124 and 31.998: 5.504 and 11.008 mg/mg; peroxide route seen. computed
    const { oxygenMoles, dissolvedOxygenMoles, acidOxidised } = headspaceOxygen(BOTTLE, 0.025);
    const oxygen = (oxygenMoles + dissolvedOxygenMoles) * OXYGEN_MOLAR_MASS;
    expect(acidOxidised.low / oxygen).toBeCloseTo(5.504, 3);
    expect(acidOxidised.high / oxygen).toBeCloseTo(11.008, 3);
    expect(acidOxidised.value).toBe(acidOxidised.low);
  });

  it("lets a millilitre of air take 1.534 mg, or 3.068", () => {
    // 20 °C, 101 325 Pa, 20.95 %, ideal gas. computed
    const air = { ...BOTTLE, headspaceVolume: 1e-6, liquidVolume: 0 };
    const { acidOxidised, dissolvedOxygenMoles } = headspaceOxygen(air, 0.025);
    expect(dissolvedOxygenMoles).toBe(0);
    expect(Math.abs((1e6 * acidOxidised.low) / 1.534 - 1)).toBeLessThan(0.003);
    expect(Math.abs((1e6 * acidOxidised.high) / 3.068 - 1)).toBeLessThan(0.003);
  });

  it("takes two thousandths of a strong solution in a full bottle", () => {
    // 250 mL at 100 g/L, 20 mL of air: 12.512 mg by what is dissolved, 30.678 by the headspace, 0.17276 %.
    // computed
    const { oxygenMoles, dissolvedOxygenMoles, acidOxidised, shareOxidised } = headspaceOxygen(
      BOTTLE,
      0.025,
    );
    const milligrams = (moles: number) => 1e6 * moles * ASCORBIC_ACID_MOLAR_MASS;
    expect(Math.abs(milligrams(dissolvedOxygenMoles) / 12.512 - 1)).toBeLessThan(0.002);
    expect(Math.abs(milligrams(oxygenMoles) / 30.678 - 1)).toBeLessThan(0.002);
    expect(Math.abs((1e6 * acidOxidised.value) / 43.19 - 1)).toBeLessThan(0.002);
    expect(Math.abs((100 * shareOxidised.value) / 0.17276 - 1)).toBeLessThan(0.002);
  });

  it("never takes more acid than there is", () => {
    const little = headspaceOxygen(BOTTLE, 60e-6);
    expect(little.shareOxidised.low).toBeCloseTo(43.19 / 60, 2);
    expect(little.shareOxidised.high).toBe(1);
    expect(headspaceOxygen(BOTTLE, 1e-6).acidOxidised).toEqual({
      value: 1e-6,
      low: 1e-6,
      high: 1e-6,
    });
  });

  it("grows with headspace and liquid, and both are nothing in nothing", () => {
    const one = headspaceOxygen(BOTTLE, 0.025);
    const two = headspaceOxygen({ ...BOTTLE, headspaceVolume: 40e-6, liquidVolume: 500e-6 }, 0.025);
    expect(two.acidOxidised.high / one.acidOxidised.high).toBeCloseTo(2, 12);
    const none = headspaceOxygen({ ...BOTTLE, headspaceVolume: 0, liquidVolume: 0 }, 0.025);
    expect(none.shareOxidised).toEqual({ value: 0, low: 0, high: 0 });
  });

  it.each([
    ["headspaceVolume", -1e-9],
    ["headspaceVolume", 0.021],
    ["headspaceVolume", Number.NaN],
    ["liquidVolume", -1e-9],
    ["liquidVolume", 0.021],
    ["temperature", 40.1],
    ["pressure", 0],
  ])("refuses a %s of %d, by its name", (quantity, value) => {
    expect(() => headspaceOxygen({ ...BOTTLE, [quantity]: value }, 0.025)).toThrow(
      expect.objectContaining({ quantity }),
    );
  });

  it.each([0, -1, 21, Number.NaN])("refuses %d kg of acid", (mass) => {
    expect(() => headspaceOxygen(BOTTLE, mass)).toThrow(OutOfRangeError);
  });
});
