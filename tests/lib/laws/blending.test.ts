import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { temperatureWhileHeated, timeWhileHeated } from "../../../lib/laws/blending.ts";
import { temperatureAfter } from "../../../lib/laws/lumped-cooling.ts";

const jug = { power: 150, heatCapacity: 2231, conductance: 0.4, surroundings: 20 };

describe("temperatureWhileHeated(body, start, time)", () => {
  it("agrees with worked problems in which nothing is lost", () => {
    const lossless = (power: number, heatCapacity: number) => ({
      ...jug,
      power,
      heatCapacity,
      conductance: 0,
    });
    // A 75 W motor turns a propeller in 5 L of water for 5 min, c 4200 J/(kg K): 1 °C. seen
    expect(temperatureWhileHeated(lossless(75, 5 * 4200), 20, 300) - 20).toBeCloseTo(1.07, 2);
    // P t/(m c): 20 W and 10 W into 0.5 kg of 4180 J/(kg K) for half an hour. computed
    expect(temperatureWhileHeated(lossless(20, 2090), 0, 1800)).toBeCloseTo(17.22488, 5);
    expect(temperatureWhileHeated(lossless(10, 2090), 0, 1800)).toBeCloseTo(8.6124402, 6);
  });

  it("is a cooling body whose surroundings are warmer by P/G", () => {
    for (const time of [0, 1, 90, 5000, 1e6])
      expect(temperatureWhileHeated(jug, 18, time)).toBeCloseTo(
        temperatureAfter(18, 20 + 150 / 0.4, 2231 / 0.4, time),
        9,
      );
    for (const time of [10, 1000])
      expect(temperatureWhileHeated({ ...jug, power: 0 }, 40, time)).toBeCloseTo(
        temperatureAfter(40, 20, 2231 / 0.4, time),
        10,
      );
  });

  it("passes without a step into the case with no loss", () => {
    const at = (conductance: number): number =>
      temperatureWhileHeated({ ...jug, conductance }, 18, 90);
    expect(at(0)).toBe(18 + (150 * 90) / 2231);
    expect(at(1e-12)).toBeCloseTo(at(0), 12);
  });

  it("starts at the start and ends where loss and power balance", () => {
    expect(temperatureWhileHeated(jug, 18, 0)).toBe(18);
    expect(temperatureWhileHeated(jug, 18, 1e7)).toBeCloseTo(395, 9);
    expect(temperatureWhileHeated(jug, 395, 700)).toBe(395);
  });

  it.each([
    [{ power: -1 }, 18, 90],
    [{ power: 1.1e5 }, 18, 90],
    [{ heatCapacity: 0.9 }, 18, 90],
    [{ heatCapacity: 1.1e7 }, 18, 90],
    [{ conductance: -0.1 }, 18, 90],
    [{ conductance: 1.1e5 }, 18, 90],
    [{ surroundings: -274 }, 18, 90],
    [{ surroundings: Number.NaN }, 18, 90],
    [{}, 1001, 90],
    [{}, 18, -1],
    [{}, 18, 1.1e7],
    [{}, 18, Number.NaN],
  ])("refuses %j from %d °C after %d s", (changes, start, time) => {
    expect(() => temperatureWhileHeated({ ...jug, ...changes }, start, time)).toThrow(
      OutOfRangeError,
    );
  });
});

describe("timeWhileHeated(body, start, target)", () => {
  it("agrees with a worked problem of a blender", () => {
    // Examination problem: 0.8 kg of water, 100 W, 4.18 kJ/(kg K), from 20 to 100 °C. computed
    const blender = { power: 100, heatCapacity: 0.8 * 4180, conductance: 0, surroundings: 20 };
    expect(timeWhileHeated(blender, 20, 100)).toBeCloseTo(2675.2, 6);
  });

  it("undoes temperatureWhileHeated, with losses and without, warming or cooling", () => {
    for (const body of [jug, { ...jug, conductance: 0 }, { ...jug, power: 0 }])
      for (const start of [18, 60])
        for (const time of [1, 90, 3000]) {
          const target = temperatureWhileHeated(body, start, time);
          expect(timeWhileHeated(body, start, target)).toBeCloseTo(time, 6);
        }
  });

  it("answers up to its longest time", () => {
    const slow = { power: 1, heatCapacity: 1e6, conductance: 0, surroundings: 20 };
    expect(timeWhileHeated(slow, 20, 30)).toBe(1e7);
    expect(timeWhileHeated(slow, 20, 30.001)).toBeNull();
  });

  it("is nothing where the body is there already", () => {
    expect(timeWhileHeated(jug, 18, 18)).toBe(0);
    expect(timeWhileHeated({ ...jug, power: 0, conductance: 0 }, 18, 18)).toBe(0);
  });

  it.each([
    [{}, 18, 395],
    [{}, 18, 400],
    [{}, 18, 17],
    [{}, 400, 18],
    [{ power: 0, conductance: 0 }, 18, 32],
    [{ power: 0 }, 20, 21],
    [{ power: 1e-9, conductance: 0 }, 18, 32],
  ])("with %j from %d °C never comes to %d °C", (changes, start, target) => {
    expect(timeWhileHeated({ ...jug, ...changes }, start, target)).toBeNull();
  });

  it("refuses what temperatureWhileHeated refuses, and such a target", () => {
    expect(() => timeWhileHeated({ ...jug, power: Number.NaN }, 18, 32)).toThrow(OutOfRangeError);
    expect(() => timeWhileHeated(jug, -274, 32)).toThrow(OutOfRangeError);
    expect(() => timeWhileHeated(jug, 18, 1001)).toThrow(OutOfRangeError);
    expect(() => timeWhileHeated(jug, 18, Number.NaN)).toThrow(OutOfRangeError);
  });
});
