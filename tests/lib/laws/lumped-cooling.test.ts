import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  biotNumber,
  LUMPED_BIOT,
  temperatureAfter,
  timeConstant,
  timeConstantFrom,
  timeToReach,
} from "../../../lib/laws/lumped-cooling.ts";

/** A sphere: volume over surface, heat capacity and conductance for a coefficient h. */
function sphere(diameter: number, density: number, specificHeat: number, h: number) {
  const [volume, surface] = [(Math.PI * diameter ** 3) / 6, Math.PI * diameter ** 2];
  return {
    length: volume / surface,
    heatCapacity: density * volume * specificHeat,
    conductance: h * surface,
  };
}

describe("timeConstant(heatCapacity, conductance)", () => {
  it("is a second for the thermocouple bead of a textbook", () => {
    // Incropera & DeWitt, Example 5.1: bead of 0.706 mm, h 400, c 400, ρ 8500. seen (in worked solutions)
    const bead = sphere(0.00070588, 8500, 400, 400);
    expect(timeConstant(bead.heatCapacity, bead.conductance)).toBeCloseTo(1, 4);
  });

  it("is 50 minutes for the steel ball of another", () => {
    // Holman, Heat Transfer, Example 4-1: 5 cm, h 10, ρ 7800, c 460. memory
    const ball = sphere(0.05, 7800, 460, 10);
    expect(timeConstant(ball.heatCapacity, ball.conductance)).toBeCloseTo(2990, 6);
  });

  it("refuses what has no heat or loses none", () => {
    for (const bad of [0, 1.1e7, Number.NaN])
      expect(() => timeConstant(bad, 5)).toThrow(OutOfRangeError);
    for (const bad of [0, 1.1e5, Number.NaN])
      expect(() => timeConstant(2000, bad)).toThrow(OutOfRangeError);
    expect(timeConstant(1e7, 1e-6)).toBe(1e13);
    expect(timeConstant(1e-6, 1e5)).toBeCloseTo(1e-11, 20);
  });
});

describe("temperatureAfter(start, surroundings, timeConstant, time)", () => {
  // 1 − e^{−n}. computed
  it.each([
    [1, 0.632121],
    [2, 0.864665],
    [3, 0.950213],
    [4, 0.981684],
    [5, 0.993262],
  ])("after %d time constants has gone %d of the way", (n, share) => {
    expect(temperatureAfter(0, 1, 60, 60 * n)).toBeCloseTo(share, 6);
    expect(temperatureAfter(100, 20, 60, 60 * n)).toBeCloseTo(100 - 80 * share, 4);
  });

  it("starts at the start and ends at the surroundings", () => {
    expect(temperatureAfter(60, 20, 600, 0)).toBe(60);
    expect(temperatureAfter(60, 20, 1e-6, 1e9)).toBe(20);
    expect(temperatureAfter(20, 20, 600, 300)).toBe(20);
  });

  it.each([
    [-274, 20, 600, 1],
    [1001, 20, 600, 1],
    [60, -274, 600, 1],
    [60, Number.NaN, 600, 1],
    [60, 20, 0, 1],
    [60, 20, 1.1e9, 1],
    [60, 20, 600, -1],
    [60, 20, 600, 1.1e9],
    [60, 20, 600, Number.NaN],
  ])("refuses %d °C in %d °C with %d s after %d s", (start, surroundings, constant, time) => {
    expect(() => temperatureAfter(start, surroundings, constant, time)).toThrow(OutOfRangeError);
  });
});

describe("timeToReach(start, surroundings, timeConstant, target)", () => {
  it("agrees with worked examples", () => {
    // Incropera & DeWitt, Example 5.1: 25 to 199 °C in gas of 200 °C, 5.16 s. seen (in worked solutions)
    expect(timeToReach(25, 200, 1, 199)).toBeCloseTo(5.1648, 4);
    // Çengel, Heat and Mass Transfer, Example 4-1: 99 % of a step, b = 0.463235 1/s. seen (the same)
    expect(timeToReach(1, 0, 1 / 0.463235, 0.01)).toBeCloseTo(9.9413, 3);
    // Çengel, Example 4-2: 37 to 25 °C in 20 °C, b = 2.7895e-5 1/s, 12.186 h. computed (its printed 10.94 h
    // is a slip)
    expect(Number(timeToReach(37, 20, 1 / 2.7895e-5, 25)) / 3600).toBeCloseTo(12.186, 2);
    // Holman, Heat Transfer, Example 4-1: 450 to 150 °C in 100 °C, τ 2990 s: 5819 s. memory
    expect(Number(timeToReach(450, 100, 2990, 150))).toBeCloseTo(5818.3, 1);
  });

  // ln(ΔT₀/ΔT). computed
  it.each([
    [10, 2.30259],
    [20, 2.99573],
    [30, 3.4012],
  ])("from %d K above to 1 K above takes %d time constants", (above, share) => {
    expect(timeToReach(20 + above, 20, 1, 21)).toBeCloseTo(share, 5);
  });

  it("undoes temperatureAfter, warming or cooling", () => {
    for (const start of [5, 60])
      for (const time of [1, 600, 5000])
        expect(timeToReach(start, 20, 600, temperatureAfter(start, 20, 600, time))).toBeCloseTo(
          time,
          6,
        );
  });

  it("is nothing where the body is there already", () => {
    expect(timeToReach(60, 20, 600, 60)).toBe(0);
    expect(timeToReach(20, 20, 600, 20)).toBe(0);
  });

  it.each([
    [60, 20, 20],
    [60, 20, 19],
    [60, 20, 61],
    [5, 20, 21],
    [5, 20, 4],
    [20, 20, 21],
  ])("of %d °C in %d °C has none for %d °C", (start, surroundings, target) => {
    expect(timeToReach(start, surroundings, 600, target)).toBeNull();
  });

  it("refuses what temperatureAfter refuses, and such a target", () => {
    expect(() => timeToReach(-274, 20, 600, 30)).toThrow(OutOfRangeError);
    expect(() => timeToReach(60, 1001, 600, 30)).toThrow(OutOfRangeError);
    expect(() => timeToReach(60, 20, Number.NaN, 30)).toThrow(OutOfRangeError);
    expect(() => timeToReach(60, 20, 600, Number.NaN)).toThrow(OutOfRangeError);
  });
});

describe("timeConstantFrom(start, later, surroundings, time)", () => {
  it("agrees with a cup that was measured", () => {
    // Section project of a mathematics course: 205 to 161.9 °F in 5 min, room 73 °F, k = 0.079 1/min. seen
    const celsius = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
    const constant = timeConstantFrom(celsius(205), celsius(161.9), celsius(73), 300);
    expect(60 / constant).toBeCloseTo(0.079058, 5);
  });

  it("undoes temperatureAfter", () => {
    for (const start of [5, 60])
      expect(timeConstantFrom(start, temperatureAfter(start, 20, 600, 400), 20, 400)).toBeCloseTo(
        600,
        8,
      );
  });

  it.each([
    [60, 60, 20],
    [60, 61, 20],
    [60, 20, 20],
    [60, 19, 20],
    [20, 20, 20],
    [60, Number.NaN, 20],
  ])("refuses %d °C then %d °C in %d °C", (start, later, surroundings) => {
    expect(() => timeConstantFrom(start, later, surroundings, 300)).toThrow(OutOfRangeError);
  });

  it.each([0, -1, 1.1e9, Number.NaN])("refuses %d s between", (time) => {
    expect(() => timeConstantFrom(60, 40, 20, time)).toThrow(OutOfRangeError);
  });

  it.each([-274, 1001, Number.NaN])("refuses %d °C at the start or around", (temperature) => {
    expect(() => timeConstantFrom(temperature, 40, 20, 300)).toThrow(OutOfRangeError);
    expect(() => timeConstantFrom(60, 40, temperature, 300)).toThrow(OutOfRangeError);
  });
});

describe("biotNumber(coefficient, length, conductivity)", () => {
  it("agrees with worked examples", () => {
    // Incropera & DeWitt, Example 5.1; Çengel, Examples 4-1 and 4-2. seen (in worked solutions)
    expect(biotNumber(400, 0.00070588 / 6, 20)).toBeCloseTo(0.0023529, 6);
    expect(biotNumber(210, 0.001 / 6, 35)).toBeCloseTo(0.001, 9);
    expect(biotNumber(8, 0.068919, 0.617)).toBeCloseTo(0.8936, 4);
    // Holman, Example 4-1. memory
    expect(biotNumber(10, 0.05 / 6, 35)).toBeCloseTo(0.002381, 6);
  });

  it("of a beaker's whole wall in moving water is 1.25, and infinite where its face changes at once", () => {
    expect(biotNumber(1000, 0.0015, 1.2)).toBeCloseTo(1.25, 12);
    expect(biotNumber(Infinity, 0.0015, 1.2)).toBe(Infinity);
  });

  it("is far above the limit for still water in a beaker", () => {
    expect(biotNumber(150, 0.02, 0.6)).toBeCloseTo(5, 12);
    expect(biotNumber(150, 0.02, 0.6)).toBeGreaterThan(LUMPED_BIOT);
    expect(biotNumber(0, 0.02, 0.6)).toBe(0);
  });

  it.each([
    [-1, 0.02, 0.6],
    [Number.NaN, 0.02, 0.6],
    [150, 0, 0.6],
    [150, 11, 0.6],
    [150, Number.NaN, 0.6],
    [150, 0.02, 0],
    [150, 0.02, 1001],
    [150, 0.02, Number.NaN],
  ])("refuses h %d, L %d, k %d", (coefficient, length, conductivity) => {
    expect(() => biotNumber(coefficient, length, conductivity)).toThrow(OutOfRangeError);
  });
});
