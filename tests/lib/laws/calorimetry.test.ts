import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { calorimetricPower } from "../../../lib/laws/calorimetry.ts";
import { FitError } from "../../../lib/numeric/least-squares.ts";

/** Munich University of Applied Sciences, script Acoustics, experiment 1.16: s, °C in half kelvins. seen */
const MUNICH = [
  [0, 27],
  [60, 28],
  [120, 29.5],
  [180, 30.5],
  [240, 31.5],
  [300, 33],
] as const;
/** The same script: 0.2 kg of water at 4187 J/(kg K) in a vacuum flask. seen */
const FLASK = 0.2 * 4187;

describe("calorimetricPower(readings, heatCapacity)", () => {
  it("agrees with a regression of published readings", () => {
    // Ordinary least squares on the readings above, worked out apart. computed
    const power = calorimetricPower(MUNICH, FLASK);
    expect(power.line.slope).toBeCloseTo(0.0197619048, 9);
    expect(power.line.slopeError).toBeCloseTo(0.000644764953, 11);
    expect(power.line.intercept).toBeCloseTo(26.952381, 6);
    expect(power.line.residualSd).toBeCloseTo(0.161834719, 8);
    expect(power.value).toBeCloseTo(16.548619, 5);
    expect(power.standardError).toBeCloseTo(0.53992617, 7);
    expect(power.low / FLASK).toBeCloseTo(0.01797175, 7);
    expect(power.high / FLASK).toBeCloseTo(0.02155206, 7);
  });

  it("agrees with the script's two end readings within its interval", () => {
    // The same script: 6 K in 300 s. computed
    const power = calorimetricPower(MUNICH, FLASK);
    expect(power.low).toBeLessThan(16.748);
    expect(power.high).toBeGreaterThan(16.748);
  });

  it.each([
    [20, 17.22488],
    [10, 8.6124402],
  ])("of %d W warms half a kilogram of water by %d K in half an hour", (watts, rise) => {
    // P t/(m c), 4180 J/(kg K). computed
    const readings = [0, 900, 1800].map((t) => [t, 20 + (rise * t) / 1800] as const);
    expect(calorimetricPower(readings, 0.5 * 4180).value).toBeCloseTo(watts, 5);
  });

  it("grows with the heat capacity, and a cooling liquid has a negative power", () => {
    const power = calorimetricPower(MUNICH, FLASK);
    const twice = calorimetricPower(MUNICH, 2 * FLASK);
    expect(twice.high / power.high).toBeCloseTo(2, 12);
    const back = calorimetricPower(
      MUNICH.map(([time, temperature]) => [-time, temperature] as const),
      FLASK,
    );
    expect(back.value).toBeCloseTo(-power.value, 10);
    expect(back.low).toBeCloseTo(-power.high, 10);
  });

  it("refuses two readings and readings all at one time", () => {
    expect(() => calorimetricPower(MUNICH.slice(0, 2), FLASK)).toThrow(FitError);
    expect(() =>
      calorimetricPower(
        MUNICH.map(([, t]) => [5, t] as const),
        FLASK,
      ),
    ).toThrow(FitError);
    expect(() => calorimetricPower([...MUNICH, [Number.NaN, 30]], FLASK)).toThrow(FitError);
  });

  it("answers at the edges", () => {
    const edges = [
      [0, -20],
      [1, 40],
      [2, 100],
    ] as const;
    expect(calorimetricPower(edges, 1).value).toBeCloseTo(60, 12);
    expect(calorimetricPower(edges, 1e7).value).toBeCloseTo(6e8, 3);
  });

  it.each([-20.1, 100.1, Number.NaN])("refuses a reading of %d °C", (temperature) => {
    expect(() => calorimetricPower([...MUNICH, [360, temperature]], FLASK)).toThrow(
      OutOfRangeError,
    );
  });

  it.each([0.99, 1.1e7, Number.NaN])("refuses a heat capacity of %d J/K", (heatCapacity) => {
    expect(() => calorimetricPower(MUNICH, heatCapacity)).toThrow(OutOfRangeError);
  });
});
