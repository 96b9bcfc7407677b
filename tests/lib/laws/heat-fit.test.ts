import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  fitHeat,
  ReadingsError,
  type HeatFit,
  type HeatParameter,
  type HeatReading,
} from "../../../lib/laws/heat-fit.ts";
import { temperaturesAfter, type HeatPowers } from "../../../lib/laws/two-node-heat.ts";
import { FitError } from "../../../lib/numeric/least-squares.ts";
import { normalDraws } from "../../../lib/numeric/sampling.ts";

const NODES = {
  liquidHeatCapacity: 2600,
  bathHeatCapacity: 8400,
  exchangeConductance: 6,
  liquidLossConductance: 0.3,
  bathLossConductance: 2,
  roomTemperature: 20,
};
const TRUTH = { ...NODES, exchangeConductance: 3.5 };
const GUESS = { liquid: 10, bath: 60 };
const OFF = { liquid: 0, bath: 0 };

/** Exact curve of 5 W, 90 W and 3.5 W/K rounded to 0.1 K: liquid and bath every 120 s, °C. computed */
const ROUNDED: readonly HeatReading[] = [
  [22, 22],
  [22.3, 23.2],
  [22.7, 24.3],
  [23.2, 25.4],
  [23.8, 26.4],
  [24.4, 27.3],
  [25, 28.2],
  [25.7, 29.1],
  [26.4, 29.9],
  [27.1, 30.7],
  [27.9, 31.5],
  [28.6, 32.3],
  [29.3, 33],
  [30, 33.7],
  [30.7, 34.4],
  [31.4, 35.1],
].map(([liquid, bath], i) => ({
  time: 120 * i,
  liquid: Number(liquid),
  bath: Number(bath),
  running: true,
}));

/** Readings of the true bench, the power on in the rows that say so. */
function measured(
  running: readonly boolean[],
  noise: () => number,
  powers: HeatPowers = { liquid: 5, bath: 90 },
): readonly HeatReading[] {
  let now = { liquid: 21, bath: 24 };
  return running.map((on, i) => {
    if (i > 0) now = temperaturesAfter(TRUTH, running[i - 1] ? powers : OFF, now, 60);
    const [a, b] = i > 0 ? [noise(), noise()] : [0, 0];
    return { time: 60 * i, liquid: now.liquid + a, bath: now.bath + b, running: on };
  });
}

const exact = (): number => 0;
const ON_OFF_ON = Array.from({ length: 40 }, (_, i) => i < 15 || i > 28);

function value(fit: HeatFit, parameter: HeatParameter): number {
  return fit.fitted.find((each) => each.parameter === parameter)?.value ?? Number.NaN;
}

function refusal(readings: readonly HeatReading[], losses = false): ReadingsError {
  try {
    fitHeat(readings, NODES, GUESS, losses);
  } catch (error) {
    if (error instanceof ReadingsError) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

function changed(row: number, change: Partial<HeatReading>): readonly HeatReading[] {
  return ROUNDED.map((each, i) => (i === row ? { ...each, ...change } : each));
}

describe("fitHeat(readings, nodes, guess, losses)", () => {
  it("agrees with a fit worked out apart", () => {
    // Two-node model, exact solution and nonlinear least squares, starts fixed and left out. computed
    const fit = fitHeat(ROUNDED, NODES, GUESS);
    const published = [
      ["liquidPower", 4.94378, 0.2059],
      ["bathPower", 89.9613, 0.2135],
      ["exchangeConductance", 3.55614, 0.06921],
    ] as const;
    for (const [i, [parameter, best, error]] of published.entries()) {
      expect(fit.fitted[i]?.parameter).toBe(parameter);
      expect(Math.abs(Number(fit.fitted[i]?.value) / best - 1)).toBeLessThan(2e-6);
      expect(Math.abs(Number(fit.fitted[i]?.standardError) / error - 1)).toBeLessThan(3e-4);
    }
    expect(fit.correlations[0]?.[1]).toBeCloseTo(-0.9485, 4);
    expect(fit.correlations[0]?.[2]).toBeCloseTo(-0.9765, 4);
    expect(fit.correlations[1]?.[2]).toBeCloseTo(0.9115, 4);
    expect(fit.residualSd).toBeCloseTo(0.02794, 5);
    expect(fit.degreesOfFreedom).toBe(27);
    // The truth that the readings were rounded from lies within two standard errors.
    expect(Math.abs(value(fit, "liquidPower") - 5)).toBeLessThan(2 * 0.2059);
  });

  it("does not mind the guess", () => {
    for (const [exchangeConductance, liquid, bath] of [
      [50, 0, 0],
      [0, 100, 0],
      [0.5, 1, 500],
    ] as const) {
      const fit = fitHeat(ROUNDED, { ...NODES, exchangeConductance }, { liquid, bath });
      expect(value(fit, "liquidPower")).toBeCloseTo(4.94378, 4);
    }
  });

  it("finds what exact readings were made from, through a rest and on again", () => {
    const fit = fitHeat(measured(ON_OFF_ON, exact), NODES, GUESS);
    expect(value(fit, "liquidPower")).toBeCloseTo(5, 6);
    expect(value(fit, "bathPower")).toBeCloseTo(90, 6);
    expect(value(fit, "exchangeConductance")).toBeCloseTo(3.5, 6);
    expect(fit.powers.bath).toBe(value(fit, "bathPower"));
    expect(fit.nodes.exchangeConductance).toBe(value(fit, "exchangeConductance"));
    expect(fit.nodes.liquidHeatCapacity).toBe(2600);
  });

  it("fits the losses too where there are readings at rest", () => {
    const wrong = { ...NODES, liquidLossConductance: 1, bathLossConductance: 1 };
    const fit = fitHeat(measured(ON_OFF_ON, exact), wrong, GUESS, true);
    expect(fit.fitted).toHaveLength(5);
    expect(value(fit, "liquidLossConductance")).toBeCloseTo(0.3, 5);
    expect(value(fit, "bathLossConductance")).toBeCloseTo(2, 5);
    expect(value(fit, "liquidPower")).toBeCloseTo(5, 5);
  });

  it("covers the truth with two standard errors about nineteen times in twenty", () => {
    const draw = normalDraws(11);
    let missed = 0;
    for (let i = 0; i < 100; i++) {
      const fit = fitHeat(
        measured(ON_OFF_ON, () => 0.05 * draw()),
        NODES,
        GUESS,
      );
      const { value, standardError } = fit.fitted[2] as HeatFit["fitted"][number];
      if (Math.abs(value - 3.5) > 2 * standardError) missed++;
    }
    expect(missed).toBeGreaterThan(0);
    expect(missed).toBeLessThan(13);
  });

  it("gives the curve, which starts at the first row and scatters by the residual", () => {
    const fit = fitHeat(ROUNDED, NODES, GUESS);
    expect(fit.curve).toHaveLength(16);
    expect(fit.curve[0]).toEqual({ liquid: 22, bath: 22 });
    const squares = fit.curve.map(
      ({ liquid, bath }, i) =>
        (liquid - Number(ROUNDED[i]?.liquid)) ** 2 + (bath - Number(ROUNDED[i]?.bath)) ** 2,
    );
    const sum = squares.reduce((total, each) => total + each, 0);
    expect(Math.sqrt(sum / 27)).toBeCloseTo(fit.residualSd, 10);
  });

  it("leaves out bath readings that were not taken", () => {
    const some = measured(ON_OFF_ON, exact).map((row, i) =>
      i % 3 === 1 ? { ...row, bath: Number.NaN } : row,
    );
    const fit = fitHeat(some, NODES, GUESS);
    expect(fit.degreesOfFreedom).toBe(39 + 26 - 3);
    expect(value(fit, "exchangeConductance")).toBeCloseTo(3.5, 6);
  });

  it("fits the liquid's power alone where the bath was read once", () => {
    const alone = measured(ON_OFF_ON, exact).map(({ bath, ...row }, i) =>
      i === 0 ? { ...row, bath: Number(bath) } : row,
    );
    const fit = fitHeat(alone, TRUTH, { liquid: 20, bath: 90 });
    expect(fit.fitted.map(({ parameter }) => parameter)).toEqual(["liquidPower"]);
    expect(value(fit, "liquidPower")).toBeCloseTo(5, 6);
    expect(fit.powers.bath).toBe(90);
  });

  it("gives powers in proportion to the heat capacities", () => {
    const twice = {
      ...NODES,
      liquidHeatCapacity: 5200,
      bathHeatCapacity: 16_800,
      liquidLossConductance: 0.6,
      bathLossConductance: 4,
    };
    const [fit, other] = [fitHeat(ROUNDED, NODES, GUESS), fitHeat(ROUNDED, twice, GUESS)];
    expect(value(other, "liquidPower") / value(fit, "liquidPower")).toBeCloseTo(2, 6);
  });

  it("refuses a fit that a power below zero would suit best", () => {
    // The liquid is given nothing and loses heat: a bench without that loss asks for less than nothing.
    const cold = measured(ON_OFF_ON, exact, { liquid: 0, bath: 90 });
    const lossless = { ...NODES, liquidLossConductance: 0 };
    try {
      fitHeat(cold, lossless, GUESS);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(FitError);
      expect(error).toMatchObject({ reason: "at-limit" });
    }
  });

  it("says which row is at fault", () => {
    expect(refusal(changed(4, { time: 360 }))).toMatchObject({ reason: "time-equal", row: 4 });
    expect(refusal(changed(4, { time: 300 }))).toMatchObject({ reason: "time-order", row: 4 });
    expect(refusal(changed(3, { time: Number.NaN }))).toMatchObject({
      reason: "not-finite",
      row: 3,
    });
    expect(refusal(changed(2, { liquid: Number.NaN }))).toMatchObject({
      reason: "not-finite",
      row: 2,
    });
    expect(refusal(changed(2, { bath: Infinity }))).toMatchObject({ reason: "not-finite", row: 2 });
    expect(refusal(changed(5, { liquid: 100.1 }))).toMatchObject({
      reason: "out-of-range",
      row: 5,
    });
    expect(refusal(changed(5, { bath: -20.1 }))).toMatchObject({ reason: "out-of-range", row: 5 });
    expect(refusal(changed(0, { time: -1 }))).toMatchObject({ reason: "out-of-range", row: 0 });
    expect(refusal(changed(15, { time: 1.1e6 }))).toMatchObject({
      reason: "out-of-range",
      row: 15,
    });
    expect(refusal(changed(0, { bath: Number.NaN }))).toMatchObject({
      reason: "no-bath-start",
      row: 0,
    });
  });

  it("says it in its message", () => {
    expect(refusal(changed(4, { time: 360 })).message).toBe("readings, row 4: time-equal");
    expect(refusal([]).message).toBe("readings: too-few");
  });

  it("reads a liquid that comes back to where it began, and a power that comes on late", () => {
    expect(fitHeat(changed(1, { liquid: 22 }), NODES, GUESS).fitted).toHaveLength(3);
    const late = measured(
      Array.from({ length: 20 }, (_, i) => i > 5),
      exact,
    );
    expect(value(fitHeat(late, NODES, GUESS), "bathPower")).toBeCloseTo(90, 4);
  });

  it("refuses readings that tell nothing", () => {
    expect(refusal([])).toMatchObject({ reason: "too-few", row: null });
    expect(refusal(ROUNDED.slice(0, 1)).reason).toBe("too-few");
    const two = ROUNDED.slice(0, 2).map(({ bath, ...row }, i) =>
      i === 0 ? { ...row, bath } : row,
    );
    expect(refusal(two as HeatReading[]).reason).toBe("too-few");
    expect(refusal(ROUNDED.map((row) => ({ ...row, liquid: 22 }))).reason).toBe("constant");
    expect(refusal(ROUNDED.map((row) => ({ ...row, running: false }))).reason).toBe(
      "never-running",
    );
    expect(refusal(ROUNDED.map((row, i) => ({ ...row, running: i === 15 }))).reason).toBe(
      "never-running",
    );
    expect(refusal(ROUNDED, true).reason).toBe("no-rest");
  });

  it("answers from the fewest readings", () => {
    expect(fitHeat(ROUNDED.slice(0, 4), NODES, GUESS).degreesOfFreedom).toBe(3);
    const three = measured(
      Array.from({ length: 20 }, (_, i) => i < 8 || i > 10),
      exact,
    );
    expect(value(fitHeat(three, NODES, GUESS, true), "liquidLossConductance")).toBeCloseTo(0.3, 4);
  });

  it("fits the bath's side from three bath readings after the first, not from two", () => {
    const read = (count: number): readonly HeatReading[] =>
      ROUNDED.map((row, i) => (i <= count ? row : { ...row, bath: Number.NaN }));
    expect(fitHeat(read(2), NODES, GUESS).fitted).toHaveLength(1);
    expect(fitHeat(read(3), NODES, GUESS).fitted).toHaveLength(3);
  });

  it("refuses a bench outside the model's range", () => {
    expect(() => fitHeat(ROUNDED, { ...NODES, liquidHeatCapacity: 0 }, GUESS)).toThrow(
      OutOfRangeError,
    );
    expect(() => fitHeat(ROUNDED, { ...NODES, roomTemperature: Number.NaN }, GUESS)).toThrow(
      OutOfRangeError,
    );
  });
});
