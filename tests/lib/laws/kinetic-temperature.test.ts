import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { ReadingsError } from "../../../lib/laws/heat-fit.ts";
import {
  kineticTemperature,
  meanKineticTemperature,
  USUAL_ACTIVATION_ENERGY,
} from "../../../lib/laws/kinetic-temperature.ts";
import { GAS_CONSTANT } from "../../../lib/laws/stefan-tube.ts";
import { rateAt } from "../../../lib/laws/storage-loss.ts";

const USUAL = USUAL_ACTIVATION_ENERGY;
const HOUR = 3600;
const equal = (...temperatures: number[]) =>
  temperatures.map((temperature) => ({ temperature, weight: 1 }));
const log = (...rows: (readonly [hours: number, temperature: number])[]) =>
  rows.map(([hours, temperature]) => ({ time: hours * HOUR, temperature }));

function reason(run: () => unknown): unknown {
  try {
    run();
  } catch (error) {
    if (error instanceof ReadingsError) return [error.reason, error.row];
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("meanKineticTemperature(spells, activationEnergy)", () => {
  it("has the pharmacopoeia's ΔH/R", () => {
    // USP <1160>: 10 000 K. seen
    expect(USUAL / GAS_CONSTANT).toBeCloseTo(10_000, -1);
  });

  // USP <1160>, the formula seen. computed
  it.each([
    ["20 and 30 °C", equal(20, 30), 26.26],
    ["2 and 8 °C", equal(2, 8), 5.536],
    [
      "23 hours at 5 and one at 25 °C",
      [
        { temperature: 5, weight: 23 },
        { temperature: 25, weight: 1 },
      ],
      7.756,
    ],
  ])("of %s is %d", (_, spells, published) => {
    expect(Math.abs(meanKineticTemperature(spells, USUAL) - published)).toBeLessThan(0.01);
  });

  it("does as much harm as the spells did", () => {
    const spells = equal(5, 12, 30);
    const mean = meanKineticTemperature(spells, 60e3);
    const harm = spells.reduce(
      (sum, { temperature }) => sum + rateAt(1e-6, 20, 60e3, temperature),
      0,
    );
    expect(rateAt(1e-6, 20, 60e3, mean) / (harm / 3)).toBeCloseTo(1, 12);
  });

  it("lies between the plain mean and the warmest, higher for a higher activation energy", () => {
    const temperature = fc.double({ min: -30, max: 60, noNaN: true });
    fc.assert(
      fc.property(fc.array(temperature, { minLength: 1, maxLength: 9 }), (temperatures) => {
        const spells = equal(...temperatures);
        const mean = temperatures.reduce((a, b) => a + b) / temperatures.length;
        const [mild, steep] = [60e3, 150e3].map((e) => meanKineticTemperature(spells, e)) as [
          number,
          number,
        ];
        expect(mild).toBeGreaterThanOrEqual(mean - 1e-9);
        expect(steep).toBeGreaterThanOrEqual(mild - 1e-9);
        expect(steep).toBeLessThanOrEqual(Math.max(...temperatures) + 1e-9);
      }),
      { seed: 1160, numRuns: 300 },
    );
  });

  it("is the temperature itself where that never changes", () => {
    for (const t of [-30, 5, 60])
      expect(meanKineticTemperature(equal(t, t), USUAL)).toBeCloseTo(t, 10);
  });

  it.each([
    ["no spells", [], USUAL],
    ["no time", [{ temperature: 5, weight: 0 }], USUAL],
    ["time below nothing", [{ temperature: 5, weight: -1 }], USUAL],
    [
      "time below nothing beside more of it",
      [...equal(5, 5), { temperature: 5, weight: -1 }],
      USUAL,
    ],
    ["−31 °C", equal(-31), USUAL],
    ["61 °C", equal(61), USUAL],
    ["a temperature that is not a number", equal(Number.NaN), USUAL],
    ["5 kJ/mol", equal(5), 5e3],
    ["201 kJ/mol", equal(5), 201e3],
  ])("refuses %s", (_, spells, energy) => {
    expect(() => meanKineticTemperature(spells, energy)).toThrow(OutOfRangeError);
  });
});

describe("kineticTemperature(readings, activationEnergy, reach)", () => {
  it("counts readings alike where the steps are even", () => {
    // USP <1160>, 20 and 30 °C for equal times: 26.26 °C. computed
    const {
      meanKineticTemperature: two,
      arithmeticMean,
      gap,
    } = kineticTemperature(log([0, 20], [1, 30]), USUAL);
    expect(Math.abs(two - 26.26)).toBeLessThan(0.01);
    expect(arithmeticMean).toBeCloseTo(25, 12);
    expect(gap).toBe(0);
    const three = kineticTemperature(log([0, 2], [1, 8], [2, 5]), USUAL);
    expect(three.meanKineticTemperature).toBeCloseTo(
      meanKineticTemperature(equal(2, 8, 5), USUAL),
      10,
    );
  });

  it("gives a reading the time round it", () => {
    // Half of 1 h and half of 3 h round the middle one; the ends reach out as far as in.
    const uneven = kineticTemperature(log([0, 4], [1, 10], [4, 6]), USUAL);
    const spells = [4, 10, 6].map((temperature, i) => ({ temperature, weight: [1, 2, 3][i]! }));
    expect(uneven.meanKineticTemperature).toBeCloseTo(meanKineticTemperature(spells, USUAL), 10);
    expect(uneven.arithmeticMean).toBeCloseTo((4 + 20 + 18) / 6, 12);
  });

  it("does not change when a steady stretch is read more often", () => {
    const seldom = log([0, 5], [2, 5], [4, 5], [6, 9], [8, 5]);
    const often = log([0, 5], [1, 5], [2, 5], [3, 5], [4, 5], [6, 9], [8, 5]);
    // But for the first reading, which reaches outwards by half its own step.
    const difference =
      kineticTemperature(seldom, USUAL).arithmeticMean -
      kineticTemperature(often, USUAL).arithmeticMean;
    expect(Math.abs(difference)).toBeLessThan(0.05);
  });

  it("leaves out what no reading reaches", () => {
    const holed = log([0, 5], [1, 5], [11, 15], [12, 15]);
    const { arithmeticMean, gap } = kineticTemperature(holed, USUAL, HOUR / 2);
    expect(gap).toBe(9 * HOUR);
    expect(arithmeticMean).toBeCloseTo(10, 12);
    expect(kineticTemperature(holed, USUAL).gap).toBe(0);
  });

  it("counts from any start", () => {
    const from = (hours: number) =>
      kineticTemperature(log([hours, 4], [hours + 1, 10], [hours + 4, 6]), USUAL);
    expect(from(-5).meanKineticTemperature).toBeCloseTo(from(1000).meanKineticTemperature, 10);
  });

  it.each([
    ["too-few", null, []],
    ["too-few", null, log([0, 5])],
    ["time-equal", 2, log([0, 5], [1, 5], [1, 6])],
    ["time-order", 1, log([2, 5], [1, 5])],
    ["not-finite", 1, log([0, 5], [Number.NaN, 5])],
    ["not-finite", 0, log([0, Number.NaN], [1, 5])],
    ["out-of-range", 1, log([0, 5], [1, 61])],
    ["out-of-range", 1, log([0, 5], [1, -31])],
    ["out-of-range", 1, log([0, 5], [1e6, 5])],
  ] as const)("refuses a log as %s in row %s", (expected, row, readings) => {
    expect(reason(() => kineticTemperature(readings, USUAL))).toEqual([expected, row]);
  });

  it.each([-30, 60])("answers for %d °C, an end of its range", (t) => {
    const { arithmeticMean } = kineticTemperature(log([0, t], [1, t]), USUAL);
    expect(arithmeticMean).toBeCloseTo(t, 12);
  });

  it.each([0, Number.NaN])("refuses a reach of %d", (reach) => {
    expect(() => kineticTemperature(log([0, 5], [1, 5]), USUAL, reach)).toThrow(/^reach must/);
  });
});
