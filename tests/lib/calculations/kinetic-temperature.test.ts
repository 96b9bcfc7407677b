import { describe, expect, it } from "vitest";
import { cautionsOf, evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";
import { readRows } from "../../../lib/calculations/readings.ts";
import { fridgeLog } from "../../../lib/calculations/quantities/storage.ts";

const HOUR = 3600;
const log = (...rows: readonly [hours: number, temperature: number][]) => ({
  fridgeLog: rows.map(([hours, temperature]) => [hours * HOUR, temperature]),
});

describe("kinetic-temperature", () => {
  it.each([
    // USP <1160>, formula seen, values computed
    [20, 30, 26.26],
    [2, 8, 5.536],
  ])("of equal times at %d and %d °C is %d °C", (one, other, mean) => {
    const values = valuesOf("kinetic-temperature", log([0, one], [1, other]));
    expect(values["meanKineticTemperature"]).toBeCloseTo(mean, 2);
    expect(values["arithmeticMean"]).toBeCloseTo((one + other) / 2, 9);
  });

  it("is the plain mean of a log that never changes", () => {
    const values = valuesOf("kinetic-temperature", log([0, 4], [1, 4], [1.5, 4]));
    expect(values["meanKineticTemperature"]).toBeCloseTo(4, 9);
    expect(values["warmest"]).toBe(4);
  });

  it("is surer than neither thermometer nor energy", () => {
    const { low, high } = evaluated("kinetic-temperature", {}).values["meanKineticTemperature"]!;
    expect(high - low).toBeGreaterThan(1.9);
    expect(high - low).toBeLessThan(2.5);
  });

  it("reads times of day over midnight, and days", () => {
    const clock = readRows(fridgeLog, "22:00 4.1\n23:30 4.3\n01:00 4.2");
    expect(clock).toEqual({
      ok: true,
      rows: [
        [0, 4.1],
        [5400, 4.3],
        [10_800, 4.2],
      ],
    });
    const days = readRows(fridgeLog, "0 d; 4\n0.5 d; 5");
    expect(days).toEqual({
      ok: true,
      rows: [
        [0, 4],
        [43_200, 5],
      ],
    });
  });

  it("speaks up where the log is silent for more than two hours", () => {
    expect(cautionsOf("kinetic-temperature", log([0, 3], [2, 3], [3, 3]))).toEqual([]);
    expect(cautionsOf("kinetic-temperature", log([0, 3], [2.01, 3], [3, 3]))).toEqual(["storage"]);
  });

  it("refuses a log that is silent for more than a day", () => {
    expect(refusalsOf("kinetic-temperature", log([0, 3], [1, 3], [25, 3]))).toEqual([]);
    expect(refusalsOf("kinetic-temperature", log([0, 3], [1, 3], [25.1, 3]))).toEqual([
      { input: "readings", says: expect.stringMatching(/24\.1\sh after row 2/) as string },
    ]);
  });

  it("speaks up where the fridge counts as warmer than 5 °C", () => {
    expect(cautionsOf("kinetic-temperature", log([0, 5], [1, 5]))).toEqual([]);
    expect(cautionsOf("kinetic-temperature", log([0, 5.1], [1, 5.1]))).toEqual(["storage"]);
  });

  it("refuses rows out of order", () => {
    expect(refusalsOf("kinetic-temperature", log([1, 3], [0, 3]))).toEqual([
      { input: "readings", says: expect.stringMatching(/earlier than the row before/) as string },
    ]);
  });
});
