import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { hydrometerReading, trueStrength } from "../../../lib/laws/hydrometer.ts";

const SIXTY_FAHRENHEIT = (60 - 32) / 1.8;

/** True % vol at 60 °F, liquid °F, reading % vol. */
const TABLE = [
  [20, 40, 17.4],
  [20, 80, 23.8],
  [40, 40, 35.4],
  [40, 50, 37.8],
  [40, 70, 42.2],
  [40, 85, 45.4],
  [60, 35, 55.2],
  [60, 70, 61.9],
  [60, 85, 64.9],
  [80, 30, 75],
  [80, 70, 81.7],
  [80, 85, 84.1],
] as const;

function refusal(run: () => number): OutOfRangeError {
  try {
    run();
  } catch (error) {
    if (error instanceof OutOfRangeError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("hydrometerReading(strength, temperature, referenceTemperature)", () => {
  // Table 55, Encyclopedia of Practical Receipts and Processes (19th century), glass, 60 °F. seen
  it.each(TABLE)("of a spirit of %d % vol at %d °F is %d", (strength, fahrenheit, reading) => {
    const shown = hydrometerReading(strength / 100, (fahrenheit - 32) / 1.8, SIXTY_FAHRENHEIT);
    expect(Math.abs(100 * shown - reading)).toBeLessThanOrEqual(0.15);
  });

  it("says the strengths that can be read when the reading is off the stem", () => {
    const weak = refusal(() => hydrometerReading(0, 10));
    expect(weak).toMatchObject({ quantity: "strength", value: 0, limits: { max: 1, unit: "1" } });
    expect(hydrometerReading(weak.limits.min + 1e-9, 10)).toBeCloseTo(0, 7);
    const strong = refusal(() => hydrometerReading(1, 30));
    expect(strong.limits.min).toBe(0);
    expect(hydrometerReading(strong.limits.max - 1e-9, 30)).toBeCloseTo(1, 7);
  });

  it.each([-0.01, 1.01, Number.NaN])("refuses a strength of %d", (strength) => {
    expect(() => hydrometerReading(strength, 20)).toThrow(/^strength must/);
  });

  it.each([-20.1, 40.1, Number.NaN])("refuses %d °C", (temperature) => {
    expect(() => hydrometerReading(0.5, temperature)).toThrow(/^temperature must/);
  });

  it.each([-0.1, 40.1, Number.NaN])("refuses a reference of %d °C", (reference) => {
    expect(() => hydrometerReading(0.5, 20, reference)).toThrow(/^referenceTemperature must/);
  });

  it("refuses a frozen liquid", () => {
    expect(refusal(() => hydrometerReading(0.1, -15)).quantity).toBe("temperature");
  });
});

describe("trueStrength(reading, temperature, referenceTemperature)", () => {
  // The same table read the other way.
  it.each(TABLE)("is %d % vol where the stem shows, at %d °F, %d", (strength, f, reading) => {
    const found = trueStrength(reading / 100, (f - 32) / 1.8, SIXTY_FAHRENHEIT);
    expect(Math.abs(100 * found - strength)).toBeLessThanOrEqual(0.15);
  });

  it("is the reading at the hydrometer's own temperature", () => {
    for (const reading of [0, 0.2, 0.5, 0.97, 1])
      for (const t of [0, 15, 20, 40]) expect(trueStrength(reading, t, t)).toBeCloseTo(reading, 11);
  });

  it("undoes hydrometerReading", () => {
    for (const strength of [0.1, 0.4, 0.7, 0.95])
      for (const t of [0, 12, 35])
        expect(trueStrength(hydrometerReading(strength, t), t)).toBeCloseTo(strength, 11);
  });

  it("is below the reading in warm liquid and above it in cold", () => {
    expect(trueStrength(0.5, 30)).toBeLessThan(0.5);
    expect(trueStrength(0.5, 5)).toBeGreaterThan(0.5);
  });

  it("answers for spirit from a freezer", () => {
    expect(trueStrength(0.4, -20)).toBeGreaterThan(0.5);
  });

  it("says the readings that a mixture gives when this one is none of them", () => {
    const light = refusal(() => trueStrength(1, 10));
    expect(light).toMatchObject({ quantity: "reading", value: 1, limits: { min: 0, unit: "1" } });
    expect(trueStrength(light.limits.max - 1e-9, 10)).toBeCloseTo(1, 7);
    const dense = refusal(() => trueStrength(0, 30));
    expect(dense.limits.max).toBe(1);
    expect(trueStrength(dense.limits.min + 1e-9, 30)).toBeCloseTo(0, 7);
  });

  it("refuses a reading that only a frozen liquid would give", () => {
    expect(refusal(() => trueStrength(0.1, -15)).quantity).toBe("reading");
  });

  it.each([-0.01, 1.01, Number.NaN])("refuses a reading of %d", (reading) => {
    expect(() => trueStrength(reading, 20)).toThrow(/^reading must/);
  });

  it.each([-20.1, 40.1, Number.NaN])("refuses %d °C", (temperature) => {
    expect(() => trueStrength(0.5, temperature)).toThrow(/^temperature must/);
  });

  it.each([-0.1, 40.1, Number.NaN])("refuses a reference of %d °C", (reference) => {
    expect(() => trueStrength(0.5, 20, reference)).toThrow(/^referenceTemperature must/);
  });
});
