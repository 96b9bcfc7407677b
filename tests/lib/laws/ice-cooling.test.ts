import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { iceNeeded, iceToHold, temperatureWithIce } from "../../../lib/laws/ice-cooling.ts";
import { ICE } from "../../../lib/substances/ice.ts";

describe("iceNeeded(heatCapacity, start, target, iceTemperature, ice)", () => {
  it("agrees with problems that are answered in print", () => {
    // A question page: 500 ml from 32 to 0 °C, 4.184 J/(g K), 334 J/g: 200 g. seen
    expect(iceNeeded(500 * 4.184, 32, 0, 0, { ...ICE, latentHeat: 334_000 })).toBeCloseTo(
      0.20043,
      5,
    );
    // A problem page: 75 g of water in a 25 g glass of 0.2 cal/(g K), 27 to 5 °C, 80 cal/g: 20.71 g. seen
    const calories = { latentHeat: 80_000, heatCapacity: 500, meltHeatCapacity: 1000 };
    expect(iceNeeded(75 + 25 * 0.2, 27, 5, 0, calories)).toBeCloseTo(0.020706, 6);
  });

  it("agrees with the balance worked out apart", () => {
    // 2.5 kg of water from 32 to 22 °C, 4180 J/(kg K), 333.55 kJ/kg, ice 2110 J/(kg K). computed
    const ice = { latentHeat: 333_550, heatCapacity: 2110, meltHeatCapacity: 4180 };
    expect(iceNeeded(2.5 * 4180, 32, 22, 0, ice)).toBeCloseTo(0.245588, 6);
    expect(iceNeeded(2.5 * 4180, 32, 22, -18, ice)).toBeCloseTo(0.225463, 6);
  });

  it("brings temperatureWithIce to the target", () => {
    for (const target of [1, 10, 30]) {
      const mass = iceNeeded(2000, 40, target, -18);
      expect(temperatureWithIce(2000, 40, mass, -18).temperature).toBeCloseTo(target, 10);
    }
    expect(iceNeeded(2000, 40, 40)).toBe(0);
  });

  it.each([
    [0.9, 32, 22, 0],
    [2e6, 32, 22, 0],
    [2000, 101, 22, 0],
    [2000, Number.NaN, 22, 0],
    [2000, 32, 32.1, 0],
    [2000, 32, -0.1, 0],
    [2000, 32, Number.NaN, 0],
    [2000, 32, 22, 0.1],
    [2000, 32, 22, -41],
  ])("refuses %d J/K from %d to %d °C with ice of %d °C", (heatCapacity, start, target, ice) => {
    expect(() => iceNeeded(heatCapacity, start, target, ice)).toThrow(OutOfRangeError);
  });
});

describe("temperatureWithIce(heatCapacity, start, iceMass, iceTemperature, ice)", () => {
  // A question page: 100 g of water at 40 °C, 2.11 and 4.18 J/(g K), 334 J/g: 19.5 and 28.5 °C. seen
  it.each([
    [0.02, -6, 19.51116],
    [0.01, -12, 28.54893],
  ])("of %d kg at %d °C is %d °C", (mass, iceTemperature, value) => {
    const ice = { latentHeat: 334_000, heatCapacity: 2110, meltHeatCapacity: 4180 };
    const after = temperatureWithIce(418, 40, mass, iceTemperature, ice);
    expect(after.temperature).toBeCloseTo(value, 4);
    expect(after.iceLeft).toBe(0);
  });

  it("agrees with a textbook's drink", () => {
    // OpenStax College Physics: 0.25 kg at 20 °C, 18 g of ice, 4186 J/(kg K), 334 kJ/kg: 13 °C. memory
    const ice = { latentHeat: 334_000, heatCapacity: 2110, meltHeatCapacity: 4186 };
    expect(temperatureWithIce(0.25 * 4186, 20, 0.018, 0, ice).temperature).toBeCloseTo(13.2977, 3);
  });

  it("stays at 0 °C while ice is left", () => {
    // NCERT exemplar, calorimetry: 200 ml at 10 °C, 4200 J/(kg K), 3.4e5 J/kg melt 0.0247 kg of 28.8 g. seen
    const ice = { latentHeat: 340_000, heatCapacity: 2100, meltHeatCapacity: 4200 };
    const after = temperatureWithIce(0.2 * 4200, 10, 0.0288, 0, ice);
    expect(after.temperature).toBe(0);
    expect(0.0288 - after.iceLeft).toBeCloseTo(0.024706, 6);
  });

  it("is the start with no ice", () => {
    expect(temperatureWithIce(2000, 33, 0, -18).temperature).toBe(33);
    expect(temperatureWithIce(2000, 0, 1)).toEqual({ temperature: 0, iceLeft: 1 });
  });

  it("refuses so much cold ice that the liquid would freeze onto it", () => {
    const most = (2000 * 10) / (2110 * 20);
    expect(temperatureWithIce(2000, 10, most * 0.999, -20).temperature).toBe(0);
    expect(() => temperatureWithIce(2000, 10, most * 1.001, -20)).toThrow(OutOfRangeError);
  });

  it.each([
    [0.9, 32, 1, 0],
    [2000, 101, 1, 0],
    [2000, -1, 1, 0],
    [2000, 32, -1, 0],
    [2000, 32, 101, 0],
    [2000, 32, Number.NaN, 0],
    [2000, 32, 1, 1],
    [2000, 32, 0.1, -41],
  ])("refuses %d J/K at %d °C with %d kg at %d °C", (heatCapacity, start, mass, ice) => {
    expect(() => temperatureWithIce(heatCapacity, start, mass, ice)).toThrow(OutOfRangeError);
  });
});

describe("iceToHold(power, time, ice)", () => {
  it("agrees with the balance worked out apart", () => {
    // 80 W for half an hour, 333.55 kJ/kg; 100 g an hour carries off 9.27 W. computed
    expect(iceToHold(80, 1800)).toBeCloseTo(0.431719, 5);
    expect(iceToHold(9.26528, 3600)).toBeCloseTo(0.1, 6);
    expect(iceToHold(0, 1800)).toBe(0);
  });

  it.each([
    [-1, 1],
    [1.1e5, 1],
    [80, -1],
    [80, 1.1e6],
    [80, Number.NaN],
  ])("refuses %d W for %d s", (power, time) => {
    expect(() => iceToHold(power, time)).toThrow(OutOfRangeError);
  });
});
