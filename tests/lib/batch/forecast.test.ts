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
import { heatReadings, liquidReading } from "../../../lib/calculations/quantities/readings.ts";
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

  describe("what is drawn of a plan", () => {
    const step = (id: string, running: boolean, length: number): StepFacts => ({
      id,
      stage: "bath",
      hands: false,
      running,
      length,
    });
    const plan = [step("stint-1", true, 600), step("soak", false, 300), step("stint-2", true, 500)];
    const drawn = (made: Evening, time: number): Predicted["planned"] => {
      const forecast = forecastOf(graph, made.batch(BENCH), plan, made.now(time));
      if (!forecast.ok) throw new Error(say(forecast.say));
      return forecast.planned;
    };
    const at = (curve: Predicted["planned"], time: number): number | undefined =>
      curve.find(([one]) => one === time)?.[2];
    const liquid = (...pieces: (readonly [number, boolean])[]): number =>
      integrated([22, 22], pieces)[0];

    it("has a point at each switching to come, and follows it", () => {
      const curve = drawn(evening().step(0, "stint-1"), 100);
      expect(at(curve, 600)).toBeCloseTo(liquid([600, true]), 6);
      expect(at(curve, 900)).toBeCloseTo(liquid([600, true], [300, false]), 6);
      const whole = [
        [600, true],
        [300, false],
        [500, true],
      ] as const;
      expect(at(curve, 1400)).toBeCloseTo(liquid(...whole), 6);
      // Ten minutes more, with the ultrasound off.
      expect(curve.at(-1)?.[0]).toBe(2000);
      expect(at(curve, 2000)).toBeCloseTo(liquid(...whole, [600, false]), 6);
      const times = curve.map(([time]) => time);
      expect(times).toEqual([...new Set(times)].sort((a, b) => a - b));
    });

    it("moves on with a step that lasts longer than planned", () => {
      const curve = drawn(evening().step(0, "stint-1"), 700);
      // The rest was to begin at 600 s and has not: what comes next is stint 2, at 900 s.
      expect(curve.find(([time]) => time > 700)?.[2]).toBeGreaterThan(liquid([700, true]));
      const later = drawn(evening().step(0, "stint-1").step(700, "soak"), 800);
      expect(at(later, 1000)).toBeCloseTo(liquid([700, true], [300, false]), 6);
      expect(later.at(-1)?.[0]).toBe(1000 + 500 + 600);
    });

    it("is half an hour where no plan says what comes", () => {
      expect(drawn(evening().step(0, "stint-1"), 3000).at(-1)?.[0]).toBe(3000 + 1800);
      expect(drawn(evening().step(0, "stint-9"), 50).at(-1)?.[0]).toBe(50 + 1800);
      expect(drawn(evening().step(0, "stint-1").end(200), 300).at(-1)?.[0]).toBe(300 + 1800);
    });
  });

  it("takes the ultrasound for off after the last step, and the beaker for hanging there", () => {
    const made = evening().step(0, "stint-1").end(600);
    const forecast = predicted(made, 900);
    expect(forecast.running).toBe(false);
    expect(forecast.liquid.value).toBeCloseTo(
      integrated(
        [22, 22],
        [
          [600, true],
          [300, false],
        ],
      )[0],
      7,
    );
    expect(refusal(evening().step(0, "weigh").end(60), 90)).toContain("first stint");
  });

  it("knows by the plan, or else by the beginning of its name, which step is in the bath", () => {
    expect(refusal(evening().step(0, "stint-1").step(600, "degas"), 700)).toContain(
      "out of the bath",
    );
    for (const id of ["after-stint-1", "after-rest-1"])
      expect(refusal(evening().step(0, id), 10), id).toContain("first stint");
  });

  it("starts anew from a reading that was taken as the first stint began", () => {
    const made = evening().step(0, "stint-1").read(0, 25, 27);
    expect(predicted(made, 300).liquid.value).toBeCloseTo(
      integrated([25, 27], [[300, true]])[0],
      7,
    );
  });

  it("expects, with the ultrasound off, no more than there is where the bath is colder", () => {
    const strong = { ...BENCH, "sonication.powerToLiquid": 50 };
    const made = evening().step(0, "stint-1").read(60, 30, 20);
    expect(predicted(made, 60, strong).peakWhenOff.value).toBeCloseTo(30, 6);
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

  describe("the straight line", () => {
    const cold = { ...BENCH, "sonication.powerToBath": 0, "sonication.powerToLiquid": 0 };
    const low = (made: Evening, time: number, bench: BatchValues = cold): number | null =>
      predicted(made, time, bench).toCeiling.low;
    const start = evening().step(0, "stint-1");

    it("comes before what the model takes for likely, and the remark says so", () => {
      const made = start.read(60, 22, 22).read(160, 27, 22);
      const warm = predicted(made, 200, BENCH);
      expect(warm.toCeiling.value).toBeCloseTo(60, 6);
      expect(warm.remarks.map((remark) => say(remark)).join()).toContain("straight line");
    });

    it("goes from the start where there is one reading alone", () => {
      // 5 K in 100 s from the 22 °C of the plan.
      expect(low(start.read(100, 27), 100)).toBeCloseTo(100, 6);
    });

    it("goes through the last two that are far enough apart, and none of it is left where the last is as expected", () => {
      const made = start.read(60, 22, 22).read(160, 27, 22);
      expect(low(made.read(260, 29, 22), 260)).toBeCloseTo(150, 6);
      expect(low(made.read(170, 27, 27), 200)).toBeNull();
    });

    it("is not drawn from the probe's own error between readings within a minute", () => {
      expect(low(start.read(59, 23.9, 21.5), 59)).toBeNull();
      expect(low(start.read(60, 23.9, 22), 60)).toBeCloseTo((60 * 8.1) / 1.9, 6);
      // 2 K in 10 s; since the start, 5 K in 100 s.
      expect(low(start.read(90, 25).read(100, 27), 100)).toBeCloseTo(100, 6);
    });

    it("passes by what is no temperature of the liquid", () => {
      const made = start.read(60, 22, 22).read(160, 27, 22);
      for (const slip of [85, 1]) expect(low(made.read(170, slip), 200)).toBeCloseTo(60, 6);
    });

    it("ends beyond what is looked at where the liquid hardly warms", () => {
      // 4 K at 0.01 K in 1000 s.
      const made = start.read(60, 28, 3).read(1060, 28.01, 3);
      expect(predicted(made, 1060, cold).readings.at(-1)?.outside).toBeGreaterThan(0);
      expect(low(made, 1060)).toBeNull();
    });

    it("holds where both readings were taken with the ultrasound as it is, and only then", () => {
      const both = (made: Evening) => made.read(60, 22, 22).read(160, 27, 22);
      expect(low(both(start.step(10, "rest-1")), 200)).toBeCloseTo(60, 6);
      expect(low(start.read(60, 22, 22).step(60, "rest-1").read(160, 27, 22), 200)).toBeNull();
      const again = start.read(50, 22, 22).step(60, "rest-1").step(70, "stint-2").read(150, 27, 22);
      expect(low(again, 200)).toBeCloseTo(50, 6);
    });
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

  it("takes from the coldest to the warmest that the liquid may be, and nothing beyond", () => {
    const made = evening().step(0, "stint-1").read(600, 25, 27);
    for (const [liquid, taken] of [
      [3, true],
      [2.9, false],
      [60, true],
      [60.1, false],
    ] as const) {
      const { remarks, liquid: now } = predicted(made.read(660, liquid), 660);
      expect(say(remarks[0] ?? []).includes("is no temperature"), String(liquid)).toBe(!taken);
      expect(now.value === liquid, String(liquid)).toBe(taken);
    }
  });

  it("says how far the last reading is from what was expected of it", () => {
    const { readings, remarks } = predicted(evening().step(0, "stint-1").read(60, 27), 60);
    const [, far = ""] = /^The last reading is ([\d.]+)\sK above/.exec(say(remarks[0] ?? [])) ?? [];
    expect(Number(far)).toBeCloseTo(27 - (readings[0]?.expected?.value ?? 0), 1);
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
    const { freedom, error } = ((rows) => {
      const fit = graph.run("heat-fit", {
        ...BENCH,
        heatReadings: rows,
        readingRoom: 20,
        "heat-fit.liquidHeatCapacity": 2600,
        "heat-fit.bathHeatCapacity": 8400,
      });
      return {
        freedom: fit?.["degreesOfFreedom"]?.value ?? 0,
        error: fit?.["powerToBathError"]?.value ?? 0,
      };
    })(other.fit!.rows);
    // Student's factor for 95 % is 2.05 at 28 degrees of freedom and 2.01 at 50. memory
    expect(freedom).toBeGreaterThan(28);
    expect((high - low) / 2 / error).toBeGreaterThan(2);
    expect((high - low) / 2 / error).toBeLessThan(2.05);
    const used = other.fit!.differences[0]!.used;
    expect(used.value).toBe(40);
    expect(used.low).toBeGreaterThan(20);
    expect(used.high - used.value).toBeCloseTo(used.value - used.low, 6);
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

  it("takes neither half of what was read before a second load for the whole", () => {
    const first = evening().step(0, "stint-1").step(600, "lift-out-1");
    const second = (made: Evening) => refusal(made.step(900, "stint-2"), 910);
    expect(second(first.read(700, 24))).toContain("read the liquid and the bath once");
    expect(second(first.read(700, 85, 25))).toContain("read the liquid and the bath once");
    expect(second(first.read(700, 24, 25))).toBe("");
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

  it("has one row a moment, the first, and no more than a fit takes", () => {
    const twice = evening().step(0, "stint-1").read(60, 22, 22).read(60, 29, 29).read(90, 23);
    expect(readingRows(twice.log, steps)).toEqual([
      [0, 22, 22, 1],
      [30, 23, null, 1],
    ]);
    let many = evening().step(0, "stint-1");
    for (let i = 0; i <= heatReadings.count.max; i++) many = many.read(i, 22, 22);
    expect(readingRows(many.log, steps)).toHaveLength(heatReadings.count.max);
    const cold = evening()
      .step(0, "stint-1")
      .read(60, 22, 22)
      .read(90, liquidReading.limits.min - 1);
    expect(readingRows(cold.log, steps)).toHaveLength(1);
  });

  it("counts the ultrasound second by second", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 40 }), fc.constantFrom("switch", "read")), {
          minLength: 4,
          maxLength: 16,
        }),
        (moves) => {
          let [time, running] = [0, true];
          let made = evening().step(0, "stint-9");
          const on: boolean[] = [];
          const read: number[] = [];
          for (const [after, what] of moves) {
            on.push(...Array.from({ length: after }, () => running));
            time += after;
            if (what === "switch") {
              running = !running;
              made = made.step(time, running ? "stint-9" : "rest-9");
            } else {
              read.push(time);
              made = made.read(time, 22, 22);
            }
          }
          on.push(running);
          const ran = read.map((from, i) => {
            const seconds = on.slice(from, Math.max(read[i + 1] ?? 0, from + 1));
            return seconds.filter(Boolean).length > seconds.length / 2 ? 1 : 0;
          });
          expect(readingRows(made.log, []).map((row) => row[3])).toEqual(ran);
        },
      ),
      { seed: 31, numRuns: 200 },
    );
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

  it("has nothing to say of a load that the model has no start or no answer for", () => {
    const load = evening().step(0, "stint-1").read(60, 22.2).step(600, "lift-out-1");
    const unread = load.step(1500, "stint-2").read(1560, 22);
    expect(readingChecks(graph, unread.batch(BENCH), steps)).toHaveLength(1);
    const tight = { ...BENCH, liquidLossConductance: 0, bathLossConductance: 0 };
    const endless = evening().step(0, "stint-1").read(500_000, 25);
    expect(readingChecks(graph, endless.batch(tight), steps)).toEqual([]);
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

  it("goes by the stage of a step, whatever the step is called", () => {
    const warm = (stage: StepFacts["stage"]): StepFacts[] => [
      { id: "warm-1", stage, hands: false, running: false, length: 60 },
    ];
    const { log } = evening().step(0, "warm-1");
    expect(heedsCeiling(log, warm("dissolve"))).toBe(false);
    expect(heedsCeiling(log, warm("blend"))).toBe(true);
    expect(heedsCeiling(log, [...warm("blend"), { ...warm("dissolve")[0]!, id: "other" }])).toBe(
      true,
    );
  });

  it("holds where no step has begun", () => {
    expect(heedsCeiling([], steps)).toBe(true);
  });
});
