import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  forecastOf,
  heedsCeiling,
  HORIZON,
  readingChecks,
  readingRows,
  type Predicted,
  type StepFacts,
} from "../../../lib/batch/forecast.ts";
import { scheduleBatch } from "../../../lib/batch/schedule.ts";
import type { BatchValues } from "../../../lib/calculations/graph.ts";
import { say } from "../../../lib/calculations/say.ts";
import { integrateUntil } from "../../../lib/numeric/runge-kutta.ts";
import { graph } from "../../helpers/calculations.ts";
import { evening, type Evening } from "../../helpers/evening.ts";

const scheduled = scheduleBatch(graph, {});
const steps: readonly StepFacts[] = scheduled.ok ? scheduled.steps : [];

/** A bench whose numbers are typed, so that the test knows them. */
const BENCH = {
  "sonication.liquidHeatCapacity": 2600,
  "sonication.bathHeatCapacity": 8400,
  "sonication.powerToLiquid": 5,
  "sonication.powerToBath": 90,
  "sonication.exchangeConductance": 3.5,
  liquidLossConductance: 0.3,
  bathLossConductance: 2,
  roomTemperature: 20,
  liquidTemperature: 22,
  bathTemperature: 22,
  ceiling: 32,
} as const;

function predicted(made: Evening, time: number, values: BatchValues = BENCH): Predicted {
  const forecast = forecastOf(graph, made.batch(values), steps, made.now(time));
  if (!forecast.ok) throw new Error(say(forecast.say));
  return forecast;
}

function refusal(made: Evening, time: number, values: BatchValues = BENCH): string {
  const forecast = forecastOf(graph, made.batch(values), steps, made.now(time));
  return forecast.ok ? "" : say(forecast.say);
}

/** The same two balances, stepped through by a method that knows nothing of closed forms. */
function integrated(
  start: readonly [liquid: number, bath: number],
  pieces: readonly (readonly [seconds: number, running: boolean])[],
): readonly [liquid: number, bath: number] {
  return pieces.reduce<readonly [number, number]>(([l, b], [seconds, running]) => {
    const slope = ([liquid = 0, bath = 0]: readonly number[]): readonly number[] => {
      const exchanged = 3.5 * (bath - liquid);
      const [p, q] = running ? [5, 90] : [0, 0];
      // Per minute, so that all values are of like size.
      return [
        (60 * (p + exchanged - 0.3 * (liquid - 20))) / 2600,
        (60 * (q - exchanged - 2 * (bath - 20))) / 8400,
        1,
      ];
    };
    const end = (values: readonly number[]): number => (values[2] ?? 0) - seconds / 60;
    const [liquid = 0, bath = 0] = integrateUntil(slope, [l, b, 0], end, 1e-11);
    return [liquid, bath];
  }, start);
}

describe("forecastOf(graph, batch, steps, now)", () => {
  it("agrees with a step-by-step integration through stints of unequal length", () => {
    const made = evening().step(0, "stint-1").step(900, "rest-1").step(1100, "stint-2");
    const [liquid] = integrated(
      [22, 22],
      [
        [900, true],
        [200, false],
        [400, true],
      ],
    );
    const forecast = predicted(made, 1500);
    expect(forecast.now).toBe(1500);
    expect(forecast.running).toBe(true);
    expect(forecast.liquid.value).toBeCloseTo(liquid, 7);
  });

  it("goes on from a reading: the liquid from the probe, the bath along the model", () => {
    const made = evening().step(0, "stint-1").read(600, 25);
    const [, bath] = integrated([22, 22], [[600, true]]);
    const [liquid] = integrated([25, bath], [[300, true]]);
    expect(predicted(made, 900).liquid.value).toBeCloseTo(liquid, 7);
  });

  it("goes on from a reading of both as if it were the start", () => {
    const made = evening().step(0, "stint-1").read(600, 25, 27);
    const [liquid] = integrated([25, 27], [[300, true]]);
    expect(predicted(made, 900).liquid.value).toBeCloseTo(liquid, 7);
  });

  it("keeps the balance of energy without losses or a reading", () => {
    const tight = { ...BENCH, liquidLossConductance: 0, bathLossConductance: 0 };
    const { planned } = predicted(evening().step(0, "stint-1"), 0, tight);
    const settled = predicted(evening().step(0, "stint-1").step(1800, "rest-1"), 20_000, tight);
    // All heat of the stint is in the two together once they are equally warm.
    expect(settled.liquid.value).toBeCloseTo(22 + (95 * 1800) / (2600 + 8400), 3);
    expect(planned[0]?.[2]).toBe(22);
  });

  it("is unsure of a fresh reading by the probe alone, and less sure as time passes", () => {
    const made = evening().step(0, "stint-1").read(600, 25, 27);
    const fresh = predicted(made, 600).liquid;
    // Twice the half degree that the quantity states for a kitchen probe.
    expect(fresh.high - fresh.low).toBeCloseTo(2, 6);
    const later = predicted(made, 1200).liquid;
    expect(later.high - later.low).toBeGreaterThan(fresh.high - fresh.low - 0.5);
    expect(predicted(made, 3000).liquid.high - predicted(made, 3000).liquid.low).toBeGreaterThan(
      later.high - later.low,
    );
  });

  it("starts from a reading taken within ten minutes before the first stint", () => {
    const at = (before: number): number =>
      predicted(evening().step(0, "set-up-1").read(10, 24, 20).step(before, "stint-1"), before)
        .liquid.value;
    expect(at(610)).toBe(24);
    expect(at(611)).toBe(22);
  });

  it("puts the ceiling where the integration passes it, earliest first", () => {
    const made = evening().step(0, "stint-1").read(600, 25, 27);
    const { toCeiling } = predicted(made, 700);
    const [liquid] = integrated([25, 27], [[100 + (toCeiling.value ?? 0), true]]);
    expect(liquid).toBeCloseTo(32, 5);
    expect(toCeiling.low).toBeLessThan(toCeiling.value ?? 0);
    expect(toCeiling.high).toBeGreaterThan(toCeiling.value ?? 0);
  });

  it("lets the bath run so long that the liquid comes to the ceiling only afterwards", () => {
    const made = evening().step(0, "stint-1").read(600, 25, 27);
    const { runFor, toCeiling } = predicted(made, 600);
    expect(runFor.value).toBeLessThan(toCeiling.value ?? 0);
    expect(runFor.low).toBeLessThan(runFor.value ?? 0);
    const off = 600 + (runFor.value ?? 0);
    const after = predicted(made.step(off, "rest-1"), off);
    expect(after.peakWhenOff.value).toBeCloseTo(32, 2);
    expect(after.liquid.value).toBeLessThan(31.8);
  });

  it("is at the ceiling now where the reading is, and has no time left to run", () => {
    const { toCeiling, runFor } = predicted(evening().step(0, "stint-1").read(60, 32, 30), 60);
    expect(toCeiling).toMatchObject({ value: 0, low: 0 });
    expect(runFor).toMatchObject({ value: 0, low: 0 });
  });

  it("says never where six hours do not get it there", () => {
    const mild = { ...BENCH, "sonication.powerToBath": 5, "sonication.powerToLiquid": 1 };
    const { toCeiling, runFor } = predicted(evening().step(0, "stint-1"), 0, mild);
    expect(toCeiling).toEqual({ value: null, low: null, high: null });
    expect(runFor).toEqual({ value: null, low: null, high: null });
  });

  it("draws what the schedule still has in store, and ten minutes more", () => {
    const { planned, carried } = predicted(evening().step(0, "stint-1").read(60, 22.5), 120);
    // Three stints and two rests of 20 min each.
    expect(planned.at(-1)?.[0]).toBe(5 * 1200 + 600);
    expect(planned[0]?.[0]).toBe(0);
    expect(carried[0]?.[0]).toBe(60);
    for (const [, low, value, high] of [...planned, ...carried]) {
      expect(low).toBeLessThanOrEqual(value);
      expect(value).toBeLessThanOrEqual(high);
    }
  });

  it("never has a band whose middle lies outside, nor an earliest after the likely", () => {
    const readings = fc.array(
      fc.record({
        after: fc.integer({ min: 1, max: 900 }),
        liquid: fc.double({ min: 3, max: 60, noNaN: true }),
        bath: fc.option(fc.double({ min: 3, max: 60, noNaN: true }), { nil: undefined }),
        on: fc.boolean(),
      }),
      { maxLength: 5 },
    );
    fc.assert(
      fc.property(readings, (rows) => {
        let time = 0;
        let made = evening().step(0, "stint-1");
        for (const { after, liquid, bath, on } of rows) {
          time += after;
          made = made.read(time, liquid, bath).step(time, on ? "stint-2" : "rest-1");
        }
        const { liquid, toCeiling, runFor } = predicted(made, time + 30);
        expect(liquid.low).toBeLessThanOrEqual(liquid.value);
        expect(liquid.value).toBeLessThanOrEqual(liquid.high);
        for (const { low, value, high } of [toCeiling, runFor]) {
          expect(low ?? HORIZON).toBeLessThanOrEqual(value ?? HORIZON);
          expect(value ?? HORIZON).toBeLessThanOrEqual(high ?? HORIZON);
        }
      }),
      { seed: 20, numRuns: 15 },
    );
  });

  it("tells a reading outside its band, by how much, and what that may mean", () => {
    const warm = predicted(evening().step(0, "stint-1").read(60, 27), 60);
    const [check] = warm.readings;
    expect(check?.outside).toBeCloseTo(27 - (check?.expected?.high ?? 0), 9);
    expect(say(warm.remarks[0] ?? [])).toMatch(/above what was expected.*bath may be warmer/s);
    const cold = predicted(evening().step(0, "stint-1").read(60, 18), 60);
    expect(cold.readings[0]?.outside).toBeLessThan(-1);
    expect(say(cold.remarks[0] ?? [])).toMatch(/below.*probe may not be in the liquid/s);
    const near = predicted(evening().step(0, "stint-1").read(60, 22.6), 60);
    expect(near.readings[0]?.outside).toBe(0);
    expect(near.remarks).toEqual([]);
  });

  it("expects a second reading within what both of them may be off", () => {
    const made = evening().step(0, "stint-1").read(600, 25, 27).read(600.001, 25.1);
    const { low = 0, high = 0 } = predicted(made, 601).readings[1]?.expected ?? {};
    expect(high - low).toBeCloseTo(2 * Math.hypot(1, 1), 3);
  });

  it("never lets the bath run longer than until the ceiling", () => {
    const made = evening().step(0, "stint-1").read(1200, 29);
    const { runFor, toCeiling } = predicted(made, 1230, {});
    expect(runFor.low).toBeLessThanOrEqual((toCeiling.low ?? 0) + 0.01);
  });

  it("waits by a straight line where the liquid warms faster than the model has an answer for", () => {
    const cold = { "sonication.powerToBath": 0, "sonication.powerToLiquid": 0 };
    const made = evening().step(0, "stint-1").read(60, 22, 22).read(160, 27, 22);
    // 5 K in 100 s: the 5 K that are left take as long, of which 40 s are gone.
    const { toCeiling, runFor } = predicted(made, 200, { ...BENCH, ...cold });
    const soon = expect.closeTo(60, 6) as number;
    expect(toCeiling).toEqual({ value: soon, low: soon, high: null });
    expect(runFor.low).toBeCloseTo(60, 6);
    const calm = evening().step(0, "stint-1").read(60, 22, 22).read(160, 22.5, 22);
    expect(predicted(calm, 200, { ...BENCH, ...cold }).toCeiling.low).toBeNull();
    const falling = evening().step(0, "stint-1").read(60, 28, 3).read(1060, 27.9, 3);
    expect(
      predicted(falling, 1070, { ...BENCH, ...cold }).readings.at(-1)?.outside,
    ).toBeGreaterThan(0);
    expect(predicted(falling, 1070, { ...BENCH, ...cold }).toCeiling.low).toBeNull();
  });

  it("gives the straight line up once the ultrasound is off", () => {
    const made = evening().step(0, "stint-1").read(600, 28, 22).read(700, 31, 22);
    const cold = { ...BENCH, "sonication.powerToBath": 0, "sonication.powerToLiquid": 0 };
    expect(predicted(made, 710, cold).toCeiling.low).not.toBeNull();
    const off = predicted(made.step(705, "rest-1"), 710, cold);
    expect(off.toCeiling.low).toBeNull();
    expect(off.remarks.map((remark) => say(remark)).join()).not.toContain("straight line");
    const resting = made.step(705, "rest-1").read(710, 31, 22).read(770, 31.5, 22);
    expect(predicted(resting, 771, cold).toCeiling.low).not.toBeNull();
  });

  it.each([180, 184.07, 193.32, 202.57])(
    "has an answer to a reading at %f s, where the end of the drawing is rounded",
    (time) => {
      const made = evening().step(0, "stint-1").read(60, 22.5).read(120, 23).read(time, 23.4);
      expect(predicted(made, time, {}).readings).toHaveLength(3);
    },
  );

  it("predicts nothing from a reading that is no temperature of the liquid", () => {
    const made = evening().step(0, "stint-1").read(600, 25, 27);
    const wrong = predicted(made.read(660, 85), 700);
    expect(wrong.liquid.value).toBeCloseTo(predicted(made, 700).liquid.value, 9);
    expect(say(wrong.remarks[0] ?? [])).toMatch(/^85\s°C is no temperature of this liquid/);
  });

  it("says whether the readings agree with the numbers in use", () => {
    const made = Array.from({ length: 20 }, (_, i) => 60 * (i + 1)).reduce(
      (so, time) => {
        const [liquid, bath] = integrated([22, 22], [[time, true]]);
        const shown = (x: number): number => Math.round(10 * x) / 10;
        return so.read(time, shown(liquid), shown(bath));
      },
      evening().step(0, "stint-1"),
    );
    expect(predicted(made, 1200).fit?.differences).toEqual([]);
    // The room of an earlier evening's readings is not tonight's.
    expect(predicted(made, 1200, { ...BENCH, readingRoom: 5 }).fit?.differences).toEqual([]);
    const other = predicted(made, 1200, { ...BENCH, "sonication.powerToBath": 40 });
    expect(other.fit?.differences.map(({ of }) => of.name)).toEqual(["powerToBath"]);
    const { low = 90, high = 90 } = other.fit?.differences[0]?.fitted ?? {};
    expect(low).toBeLessThan(90);
    expect(high).toBeGreaterThan(90);
    expect(other.remarks.map((remark) => say(remark)).join()).toContain("Power to the bath");
    expect(predicted(evening().step(0, "stint-1").read(60, 22.5, 22.6), 60).fit).toBeUndefined();
  });

  it("takes no notice of a jump of the clock that was seen", () => {
    const made = evening().step(0, "stint-1").jump(300, -3600).read(600, 25, 27);
    const plain = evening().step(0, "stint-1").read(600, 25, 27);
    expect(predicted(made, 900).liquid.value).toBeCloseTo(predicted(plain, 900).liquid.value, 9);
  });

  it("begins anew after a clock that went back unseen, from a reading of both", () => {
    const made = evening().step(0, "stint-1").unseen(-3600).read(600, 25);
    expect(refusal(made, 700)).toContain("read the liquid and the bath once");
    const both = made.read(660, 25.2, 27);
    const [liquid] = integrated([25.2, 27], [[40, true]]);
    expect(predicted(both, 700).liquid.value).toBeCloseTo(liquid, 7);
  });

  it("wants a reading of both for a second beaker", () => {
    const made = evening().step(0, "stint-1").step(600, "lift-out-1").step(900, "stint-2");
    expect(refusal(made, 900)).toContain("read the liquid and the bath once");
    expect(predicted(made.read(960, 22, 30), 960).liquid.value).toBe(22);
  });

  it("follows the heater where it is on, also past what a plan would refuse", () => {
    const heated = { ...BENCH, heaterOn: "on", heaterSetting: 50, heaterPower: 300 };
    const made = evening().step(0, "stint-1");
    expect(predicted(made, 600, heated).liquid.value).toBeGreaterThan(
      predicted(made, 600).liquid.value + 1,
    );
  });

  it("has no answer before the first stint, out of the bath, and with the clock behind", () => {
    expect(refusal(evening(), 0)).toContain("begins with the first stint");
    expect(refusal(evening().step(0, "set-up-1").read(5, 22), 10)).toContain("first stint");
    expect(refusal(evening().step(0, "stint-1").step(60, "lift-out-1"), 90)).toContain(
      "out of the bath",
    );
    expect(refusal(evening().step(0, "stint-1").read(600, 24), 500)).toContain("clock is behind");
  });

  it("passes on what stands in the way of the plan", () => {
    expect(refusal(evening().step(0, "stint-1"), 60, { roomTemperature: 99 })).toContain(
      "Temperature of the room",
    );
  });

  it("gives up where the model would be far above what it holds for", () => {
    const tight = { ...BENCH, liquidLossConductance: 0, bathLossConductance: 0 };
    const made = evening().step(0, "stint-1").step(500_000, "rest-1");
    expect(refusal(made, 500_100, tight)).toContain("far above anything");
  });
});

describe("readingRows(log, steps)", () => {
  it("gives rows from the first reading of both, running for most of the time to the next", () => {
    const { log } = evening()
      .step(0, "stint-1")
      .read(30, 21.9)
      .read(60, 22, 22.5)
      .read(180, 22.6)
      .step(220, "rest-1")
      .read(300, 22.8, 23.1);
    expect(readingRows(log, steps)).toEqual([
      [0, 22, 22.5, 1],
      [120, 22.6, null, 0],
      [240, 22.8, 23.1, 0],
    ]);
  });

  it("leaves out what was read outside the bath, and what no fit takes", () => {
    const { log } = evening()
      .step(0, "blend-1")
      .read(10, 30)
      .step(60, "stint-1")
      .read(90, 22, 22)
      .read(120, 130)
      .step(200, "lift-out-1")
      .read(230, 24);
    expect(readingRows(log, steps)).toEqual([[0, 22, 22, 1]]);
    expect(readingRows([], steps)).toEqual([]);
  });

  it("keeps to the last load that was read", () => {
    const { log } = evening()
      .step(0, "stint-1")
      .read(30, 21, 21)
      .step(60, "lift-out-1")
      .step(90, "stint-4")
      .read(120, 22, 22)
      .step(150, "lift-out-2")
      .step(180, "stint-7");
    expect(readingRows(log, steps)).toEqual([[0, 22, 22, 1]]);
  });

  it("knows stints and rests by name where the plan has changed since", () => {
    const { log } = evening().step(0, "stint-9").read(60, 22, 22).step(70, "rest-9").read(99, 22);
    expect(readingRows(log, steps).map(([, , , running]) => running)).toEqual([0, 0]);
    expect(readingRows(log.slice(0, 2), steps)).toEqual([[0, 22, 22, 1]]);
  });
});

describe("readingChecks(graph, batch, steps)", () => {
  it("checks the readings of every session, also after the beaker came out", () => {
    const made = evening()
      .step(0, "stint-1")
      .read(60, 30)
      .step(600, "lift-out-1")
      .step(700, "stint-2")
      .read(710, 22, 25)
      .read(770, 22.2)
      .step(900, "lift-out-1");
    const checks = readingChecks(graph, made.batch(BENCH), steps);
    expect(checks.map(({ outside }) => outside > 0)).toEqual([true, false, false]);
    // The first of the second beaker is where the model begins: nothing was expected of it.
    expect(checks.map(({ expected }) => expected === null)).toEqual([false, true, false]);
  });

  it("has nothing to say where the plan has no answer", () => {
    const made = evening().step(0, "stint-1").read(60, 22.2);
    expect(readingChecks(graph, made.batch({ roomTemperature: 99 }), steps)).toEqual([]);
  });
});

describe("heedsCeiling(log, steps)", () => {
  it.each([
    ["stint-1", true],
    ["blend-1", true],
    ["lift-out-1", true],
    ["dissolve", false],
    ["cool", false],
    ["chill", false],
  ])("in %s: %s", (step, heeds) => {
    expect(heedsCeiling(evening().step(0, step).log, steps)).toBe(heeds);
  });

  it("holds where no step has begun", () => {
    expect(heedsCeiling([], steps)).toBe(true);
  });
});
