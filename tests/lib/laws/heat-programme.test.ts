import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  endOfStint,
  firstTimeAbove,
  type HeatBench,
  heatProgramme,
  type HeatProgramme,
  longestStint,
  peakLiquid,
  programmeAt,
  restNeeded,
  sampleProgramme,
} from "../../../lib/laws/heat-programme.ts";
import {
  heatPhase,
  steadyTemperatures,
  temperaturesAfter,
} from "../../../lib/laws/two-node-heat.ts";

const NO_HEATER = { power: 0, setting: 40, on: false };
const NO_POWER = { liquid: 0, bath: 0 };

// Two baths with round numbers. Their values: matrix exponential of the model, checked with Runge–Kutta steps of
// 0.25 s to 1e-12. computed
const A: HeatBench = {
  nodes: {
    liquidHeatCapacity: 2200,
    bathHeatCapacity: 10_500,
    exchangeConductance: 8,
    liquidLossConductance: 0.4,
    bathLossConductance: 2.5,
    roomTemperature: 21,
  },
  sonication: { liquid: 12, bath: 60 },
  start: { liquid: 24, bath: 23 },
  heater: NO_HEATER,
};
const B: HeatBench = {
  nodes: {
    liquidHeatCapacity: 2600,
    bathHeatCapacity: 8400,
    exchangeConductance: 3.5,
    liquidLossConductance: 0.3,
    bathLossConductance: 2,
    roomTemperature: 20,
  },
  sonication: { liquid: 5, bath: 90 },
  start: { liquid: 22, bath: 22 },
  heater: NO_HEATER,
};

const single = (bench: HeatBench, stintTime: number, coolDown = 0): HeatProgramme => ({
  ...bench,
  stintTime,
  restTime: 0,
  stints: 1,
  coolDown,
});
const withHeater = (bench: HeatBench, power: number, setting: number): HeatBench => ({
  ...bench,
  heater: { power, setting, on: true },
});
/** Six hours: warming up, then stints with rests, the bath held at 40 °C. */
const SIX_HOURS: HeatProgramme = {
  ...withHeater(A, 100, 40),
  warmUp: 3600,
  stintTime: 900,
  restTime: 900,
  stints: 9,
  coolDown: 2700,
};

/** Evenly spread: drawn as floating-point numbers, nearly all would be next to 0. */
const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const coefficient = (max: number) => fc.oneof(fc.constant(0), between(max / 30, max));
const temperature = between(0, 80);
const capacity = between(500, 20_000);
const seconds = fc.oneof(fc.constant(0), between(1, 7200));
const anyBench: fc.Arbitrary<HeatBench> = fc.record({
  nodes: fc.record({
    liquidHeatCapacity: capacity,
    bathHeatCapacity: capacity,
    exchangeConductance: coefficient(15),
    liquidLossConductance: coefficient(2),
    bathLossConductance: coefficient(5),
    roomTemperature: temperature,
  }),
  start: fc.record({ liquid: temperature, bath: temperature }),
  sonication: fc.record({ liquid: coefficient(40), bath: coefficient(200) }),
  heater: fc.record({ power: coefficient(300), setting: temperature, on: fc.constant(true) }),
});
const anyProgramme: fc.Arbitrary<HeatProgramme> = fc
  .record({
    bench: anyBench,
    atSetting: fc.boolean(),
    warmUp: seconds,
    stintTime: between(1, 7200),
    restTime: seconds,
    stints: fc.integer({ min: 1, max: 4 }),
    coolDown: seconds,
  })
  .map(({ bench, atSetting, ...times }) => ({
    ...bench,
    ...times,
    start: atSetting ? { ...bench.start, bath: bench.heater.setting } : bench.start,
  }));
const SEED = { seed: 777, numRuns: 300 };

/**
 * The programme in small Runge–Kutta steps, from the balances and the thermostat's rule alone. A step that
 * brings the bath to the setting is shortened to end there.
 */
function stepped(programme: HeatProgramme, until: number, longestStep: number): [number, number] {
  const { nodes, sonication, heater, stintTime, restTime, stints, warmUp = 0 } = programme;
  type Pair = [number, number];
  /** Which way the thermostat is, from the bath at the start of a step to the end of it. */
  const side = ([, bath]: Pair): number => {
    const above = bath - heater.setting;
    return Math.abs(above) < 1e-8 ? 0 : Math.sign(above);
  };
  const slope = ([liquid, bath]: Pair, stint: boolean, where: number): Pair => {
    const { exchangeConductance, roomTemperature } = nodes;
    const exchange = exchangeConductance * (bath - liquid);
    const loss = nodes.bathLossConductance * (bath - roomTemperature);
    const ultrasound = stint ? sonication.bath : 0;
    const need = loss + exchange - ultrasound;
    let heat = 0;
    if (heater.on && where === 0) heat = Math.min(Math.max(need, 0), heater.power);
    else if (heater.on && where < 0) heat = heater.power;
    const liquidLoss = nodes.liquidLossConductance * (liquid - roomTemperature);
    return [
      ((stint ? sonication.liquid : 0) + exchange - liquidLoss) / nodes.liquidHeatCapacity,
      (heat - need) / nodes.bathHeatCapacity,
    ];
  };
  const step = (from: Pair, h: number, stint: boolean): Pair => {
    const along = (k: Pair, by: number): Pair => [from[0] + by * k[0], from[1] + by * k[1]];
    const where = side(from);
    const a = slope(from, stint, where);
    const b = slope(along(a, h / 2), stint, where);
    const c = slope(along(b, h / 2), stint, where);
    const d = slope(along(c, h), stint, where);
    const mean = (i: 0 | 1): number => (a[i] + 2 * b[i] + 2 * c[i] + d[i]) / 6;
    return along([mean(0), mean(1)], h);
  };
  const parts: [boolean, number][] = [[false, warmUp]];
  for (let i = 1; i <= stints; i++)
    parts.push([true, stintTime], [false, i < stints ? restTime : until]);
  let state: Pair = [programme.start.liquid, programme.start.bath];
  let left = until;
  for (const [stint, duration] of parts) {
    let rest = Math.min(duration, left);
    left -= rest;
    while (rest > 1e-9) {
      let h = Math.min(longestStep, rest);
      let next = step(state, h, stint);
      if (heater.on && side(state) * side(next) < 0) {
        let low = 0;
        for (let i = 0; i < 60; i++) {
          const middle = (low + h) / 2;
          if (side(state) * (step(state, middle, stint)[1] - heater.setting) < 0) h = middle;
          else low = middle;
        }
        next = [step(state, h, stint)[0], heater.setting];
      }
      state = next;
      rest -= h;
    }
  }
  return state;
}

describe("heatProgramme(programme)", () => {
  it.each([
    [A, [30.8547226, 30.8004043], [27.5741292, 27.4902179], [33.7561664, 33.6650546]],
    [B, [31.3615231, 35.1125692], [30.1714708, 29.6213186], [36.9908521, 40.3570137]],
  ])("is 30 min on, 30 off, 30 on in bath %#", (bench, ...joints) => {
    const pieces = heatProgramme({ ...single(bench, 1800), restTime: 1800, stints: 2 });
    expect(pieces.map(({ stage, stint, heater }) => [stage, stint, heater])).toEqual([
      ["stint", 1, "off"],
      ["rest", 1, "off"],
      ["stint", 2, "off"],
    ]);
    joints.forEach(([liquid, bath], i) => {
      const found = programmeAt(pieces, 1800 * (i + 1));
      expect(found.liquid).toBeCloseTo(liquid as number, 6);
      expect(found.bath).toBeCloseTo(bath as number, 6);
    });
  });

  it("switches from full to holding where the heated bath comes to 40 °C", () => {
    // As A, heater only. computed
    const pieces = heatProgramme({ ...single(withHeater(A, 100, 40), 1), warmUp: 7200 });
    expect(pieces[0]).toMatchObject({ stage: "warm-up", stint: 0, heater: "full" });
    expect(Math.abs(pieces[0]!.duration - 3140.50499)).toBeLessThanOrEqual(0.01);
    expect(pieces[1]).toMatchObject({ stage: "warm-up", heater: "holding" });
    expect(programmeAt(pieces, 3140.50499).liquid).toBeCloseTo(38.1439414, 6);
    expect(programmeAt(pieces, 7000).bath).toBeCloseTo(40, 12);
  });

  it("lets go where the ultrasound warms the bath beyond the setting, and takes hold again", () => {
    const bench = { ...withHeater(B, 40, 35), start: { liquid: 35, bath: 35 } };
    const pieces = heatProgramme({ ...single(bench, 3600, 36_000), warmUp: 600 });
    expect(pieces.map(({ stage, heater }) => `${stage} ${heater}`)).toEqual([
      "warm-up holding",
      "stint off",
      "cool-down off",
      "cool-down holding",
    ]);
  });

  it("stays at full power where the bath cannot be held", () => {
    const bench = { ...withHeater(A, 10, 40), start: { liquid: 40, bath: 40 } };
    const pieces = heatProgramme(single({ ...bench, sonication: NO_POWER }, 3600));
    expect(pieces.map(({ heater }) => heater)).toEqual(["full"]);
    expect(programmeAt(pieces, 3600).bath).toBeLessThan(40);
  });

  it("falls from holding to full as the hot liquid cools", () => {
    const bench = { ...withHeater(A, 20, 40), start: { liquid: 44, bath: 40 } };
    const pieces = heatProgramme(single({ ...bench, sonication: NO_POWER }, 3600));
    expect(pieces.map(({ heater }) => heater)).toEqual(["holding", "full"]);
  });

  it("never switches at a setting that the bath only tends to, or touches as it turns", () => {
    fc.assert(
      fc.property(anyBench, fc.boolean(), fc.boolean(), (bench, heated, turning) => {
        const { nodes, sonication, start, heater } = bench;
        const powers = { ...sonication, bath: sonication.bath + (heated ? heater.power : 0) };
        const phase = heatPhase(nodes, powers, start);
        const turn = phase.turn("bath");
        const bath = turning
          ? turn && phase.at(turn).bath
          : steadyTemperatures(nodes, powers)?.bath;
        fc.pre(typeof bath === "number" && bath >= -40 && bath <= 150);
        const pieces = heatProgramme(
          single({ ...bench, heater: { ...heater, setting: bath } }, 1e6),
        );
        pieces.slice(1).forEach((piece, i) => {
          expect(piece.heater).not.toBe(pieces[i]!.heater);
        });
      }),
      SEED,
    );
  });

  it("heats nothing with a heater that is switched off or has no power", () => {
    const off = heatProgramme(
      single({ ...A, heater: { power: 100, setting: 40, on: false } }, 900),
    );
    const none = heatProgramme(single(withHeater(A, 0, 40), 900));
    const alone = temperaturesAfter(A.nodes, A.sonication, A.start, 900);
    expect(programmeAt(off, 900)).toEqual(alone);
    expect(programmeAt(none, 900)).toEqual(alone);
  });

  it("agrees with small Runge–Kutta steps and a thermostat", () => {
    const beyond: HeatProgramme = {
      ...withHeater(B, 60, 33),
      warmUp: 2000,
      stintTime: 2400,
      restTime: 1200,
      stints: 3,
      coolDown: 9000,
    };
    for (const programme of [SIX_HOURS, beyond]) {
      const pieces = heatProgramme(programme);
      for (const time of [1000, 3000, 5000, 8000, 12_000, 17_000]) {
        const [liquid, bath] = stepped(programme, time, 0.25);
        const found = programmeAt(pieces, time);
        expect(Math.abs(found.liquid - liquid)).toBeLessThanOrEqual(1e-6);
        expect(Math.abs(found.bath - bath)).toBeLessThanOrEqual(1e-6);
      }
    }
  });

  it("agrees with steps for any coefficients", () => {
    fc.assert(
      fc.property(anyProgramme, between(0, 1), (programme, share) => {
        const pieces = heatProgramme(programme);
        const end = pieces.at(-1)!.start + pieces.at(-1)!.duration;
        const [liquid, bath] = stepped(programme, share * end, 2);
        const found = programmeAt(pieces, share * end);
        // Steps of 2 s blur each switching of the thermostat.
        expect(Math.abs(found.liquid - liquid)).toBeLessThanOrEqual(1e-4);
        expect(Math.abs(found.bath - bath)).toBeLessThanOrEqual(1e-4);
      }),
      { ...SEED, numRuns: 100 },
    );
  });

  it("keeps the thermostat's rule, joins without a step, balances, and ends in few pieces", () => {
    fc.assert(
      fc.property(anyProgramme, (programme) => {
        const { nodes, heater, sonication } = programme;
        const pieces = heatProgramme(programme);
        pieces.forEach(({ stage, stint, heater: now }, i) => {
          const before = pieces[i - 1];
          if (before?.stage === stage && before.stint === stint)
            expect(now).not.toBe(before.heater);
          const part = pieces.filter((piece) => piece.stage === stage && piece.stint === stint);
          expect(part.length).toBeLessThanOrEqual(5);
        });
        let state = programme.start;
        let time = 0;
        for (const piece of pieces) {
          const { start, duration, phase, stage } = piece;
          expect(start).toBeCloseTo(time, 6);
          time = start + duration;
          expect(phase.at(0)).toEqual(state);
          state = phase.at(duration);
          const { input, lost, stored } = phase.energy(duration);
          const size = Math.abs(input) + Math.abs(lost) + Math.abs(stored);
          expect(Math.abs(input - lost - stored)).toBeLessThanOrEqual(1e-9 * size + 1e-9);
          for (let i = 0; i <= 20; i++) {
            const { liquid, bath } = phase.at((duration * i) / 20);
            const ultrasound = stage === "stint" ? sonication.bath : 0;
            const need =
              nodes.bathLossConductance * (bath - nodes.roomTemperature) +
              nodes.exchangeConductance * (bath - liquid) -
              ultrasound;
            if (heater.power === 0) expect(piece.heater).toBe("off");
            else if (piece.heater === "off")
              expect(bath).toBeGreaterThanOrEqual(heater.setting - 1e-8);
            else if (piece.heater === "full")
              expect(bath).toBeLessThanOrEqual(heater.setting + 1e-8);
            else {
              expect(Math.abs(bath - heater.setting)).toBeLessThanOrEqual(1e-8);
              expect(need).toBeGreaterThanOrEqual(-1e-6);
              expect(need).toBeLessThanOrEqual(heater.power + 1e-6);
            }
          }
        }
      }),
      SEED,
    );
  });

  it.each([
    ["stintTime", 0.9],
    ["stintTime", Number.NaN],
    ["restTime", -1],
    ["restTime", 1.1e6],
    ["coolDown", -1],
    ["coolDown", Number.NaN],
    ["warmUp", -1],
    ["warmUp", Infinity],
    ["stints", 0],
    ["stints", 1001],
    ["stints", Number.NaN],
  ])("refuses a %s of %d", (name, value) => {
    expect(() => heatProgramme({ ...SIX_HOURS, [name]: value })).toThrow(OutOfRangeError);
  });

  it("refuses half a stint", () => {
    expect(() => heatProgramme({ ...SIX_HOURS, stints: 1.5 })).toThrow(TypeError);
  });

  it.each([-41, 151, Number.NaN])("refuses %d °C", (t) => {
    for (const bench of [
      { ...A, nodes: { ...A.nodes, roomTemperature: t } },
      { ...A, start: { liquid: t, bath: 20 } },
      { ...A, start: { liquid: 20, bath: t } },
      withHeater(A, 100, t),
    ]) {
      expect(() => heatProgramme(single(bench, 60))).toThrow(OutOfRangeError);
      expect(() => longestStint(bench, 40, 3600)).toThrow(OutOfRangeError);
      expect(() => restNeeded(bench, 40)).toThrow(OutOfRangeError);
    }
  });

  it.each([-1, 5.1e4, Number.NaN])("refuses a power of %d W", (power) => {
    for (const bench of [
      { ...A, sonication: { liquid: power, bath: 0 } },
      { ...A, sonication: { liquid: 0, bath: power } },
      withHeater(A, power, 40),
    ]) {
      expect(() => heatProgramme(single(bench, 60))).toThrow(OutOfRangeError);
      expect(() => longestStint(bench, 40, 3600)).toThrow(OutOfRangeError);
    }
  });
});

describe("endOfStint(bench, stintTime)", () => {
  it("is where the programme of one such stint ends, thermostat included", () => {
    fc.assert(
      fc.property(anyBench, between(1, 7200), (bench, time) => {
        const pieces = heatProgramme(single(bench, time));
        expect(endOfStint(bench, time)).toEqual(programmeAt(pieces, time));
      }),
      SEED,
    );
  });

  it.each([1, 1e6])("answers for %d s", (time) => {
    expect(endOfStint(A, time).liquid).toBeGreaterThan(A.start.liquid);
  });

  it.each([0.999, 1e6 + 1, Number.NaN])("refuses a stint of %d s", (time) => {
    expect(() => endOfStint(A, time)).toThrow(OutOfRangeError);
  });

  it("refuses a start, a room, a setting or a power that a programme refuses", () => {
    for (const bench of [
      { ...A, start: { liquid: 151, bath: 20 } },
      { ...A, nodes: { ...A.nodes, roomTemperature: -41 } },
      withHeater(A, 100, 151),
      { ...A, sonication: { liquid: -1, bath: 0 } },
    ])
      expect(() => endOfStint(bench, 600)).toThrow(OutOfRangeError);
  });
});

describe("programmeAt(pieces, time)", () => {
  const pieces = heatProgramme(SIX_HOURS);

  it("is the start at 0 and goes on to the end", () => {
    expect(programmeAt(pieces, 0)).toEqual(A.start);
    expect(programmeAt(pieces, 21_600).bath).toBeCloseTo(40, 9);
  });

  it.each([-1, 21_601, Number.NaN])("refuses %d s of a programme of six hours", (time) => {
    expect(() => programmeAt(pieces, time)).toThrow(OutOfRangeError);
  });
});

describe("peakLiquid(pieces)", () => {
  it("looks beyond the stint, where a warmer bath goes on heating", () => {
    // As B and A. computed
    const late = peakLiquid(heatProgramme(single(B, 1800, 3600)));
    expect(late.temperature).toBeCloseTo(32.0951174, 6);
    expect(Math.abs(late.time - 1800 - 464.9435)).toBeLessThanOrEqual(0.01);
    const early = peakLiquid(heatProgramme(single(A, 1800, 3600)));
    expect(early.temperature).toBeCloseTo(30.8547226, 6);
    expect(early.time).toBe(1800);
  });

  it("is the end of a rest too short for the liquid to turn", () => {
    const pieces = heatProgramme(single(B, 1800, 60));
    const { liquid } = programmeAt(pieces, 1860);
    expect(peakLiquid(pieces)).toEqual({ temperature: liquid, time: 1860 });
  });

  it("is the first moment of a liquid that stays as it is", () => {
    const still = { ...A, start: { liquid: 21, bath: 21 }, sonication: NO_POWER };
    expect(peakLiquid(heatProgramme(single(still, 600, 600)))).toEqual({
      temperature: 21,
      time: 0,
    });
  });

  it("is the start of a liquid that only cools", () => {
    const cooling = { ...A, start: { liquid: 60, bath: 20 }, sonication: NO_POWER };
    expect(peakLiquid(heatProgramme(single(cooling, 600)))).toEqual({ temperature: 60, time: 0 });
  });
});

describe("firstTimeAbove(pieces, ceiling)", () => {
  it("is when the liquid passes 32 °C", () => {
    // As A and B. computed
    expect(firstTimeAbove(heatProgramme(single(A, 7200)), 32)).toBeCloseTo(2143.58306, 3);
    expect(firstTimeAbove(heatProgramme(single(B, 7200)), 32)).toBeCloseTo(1913.70767, 3);
  });

  it("finds it after the stint, and does not count touching", () => {
    const pieces = heatProgramme(single(B, 1800, 3600));
    expect(firstTimeAbove(pieces, 32)).toBeGreaterThan(1800);
    const { temperature: top } = peakLiquid(pieces);
    expect(firstTimeAbove(pieces, top)).toBeNull();
    expect(firstTimeAbove(pieces, top - 1e-9)).not.toBeNull();
  });

  it("is 0 from the ceiling up", () => {
    const pieces = heatProgramme(single(B, 1800));
    expect(firstTimeAbove(pieces, 22)).toBe(0);
    expect(firstTimeAbove(pieces, 10)).toBe(0);
    const cooling = { ...B, start: { liquid: 60, bath: 20 } };
    expect(firstTimeAbove(heatProgramme(single(cooling, 3600)), 50)).toBe(0);
  });

  it.each([-274, Number.NaN])("refuses a ceiling of %d °C", (ceiling) => {
    expect(() => firstTimeAbove(heatProgramme(single(A, 60)), ceiling)).toThrow(OutOfRangeError);
  });
});

describe("restNeeded(bench, temperature)", () => {
  it.each([
    [A, 2999.1921, 5237.2754],
    [B, 6352.3035, 9692.9258],
  ])("to 2 K above the start and to the start, after 30 min in bath %#", (bench, first, second) => {
    const start = temperaturesAfter(bench.nodes, bench.sonication, bench.start, 1800);
    const rest = (above: number) => restNeeded({ ...bench, start }, bench.start.liquid + above);
    expect(Math.abs((rest(2) as number) - first)).toBeLessThanOrEqual(0.01);
    expect(Math.abs((rest(0) as number) - second)).toBeLessThanOrEqual(0.01);
  });

  it("follows runs to 32 °C and rests to 28 °C", () => {
    // As A. computed
    let start = A.start;
    for (const [run, bathThen, pause, bathAfter] of [
      [2143.58306, 31.931272, 2004.02762, 27.9106405],
      [1112.60951, 31.9308926, 2003.90234, 27.9106405],
    ] as const) {
      const stint = heatPhase(A.nodes, A.sonication, start);
      const until = stint.timeToReach(32, "liquid", 7200) as number;
      expect(Math.abs(until - run)).toBeLessThanOrEqual(0.01);
      start = stint.at(until);
      expect(start.bath).toBeCloseTo(bathThen, 6);
      const rest = restNeeded({ ...A, start }, 28) as number;
      expect(Math.abs(rest - pause)).toBeLessThanOrEqual(0.01);
      start = temperaturesAfter(A.nodes, NO_POWER, start, rest);
      expect(start.bath).toBeCloseTo(bathAfter, 6);
    }
  });

  it("is 0 where the liquid is there, null where it never comes there", () => {
    const warm = { ...A, start: { liquid: 30, bath: 30 } };
    expect(restNeeded(warm, 30)).toBe(0);
    expect(restNeeded(warm, 21)).toBeNull();
    expect(restNeeded(warm, 15)).toBeNull();
    expect(restNeeded(withHeater(warm, 200, 29), 25)).toBeNull();
  });

  it("goes on where the thermostat has taken hold of the cooling bath", () => {
    const held = { ...withHeater(A, 100, 40), start: { liquid: 48, bath: 42 } };
    const pieces = heatProgramme(single({ ...held, sonication: NO_POWER }, 9000));
    expect(pieces.map(({ heater }) => heater)).toEqual(["off", "holding"]);
    const rest = restNeeded(held, 40.2) as number;
    expect(rest).toBeGreaterThan(pieces[1]!.start);
    expect(programmeAt(pieces, rest).liquid).toBeCloseTo(40.2, 9);
  });

  it("reaches in a colder bath what the room alone never gives", () => {
    const rest = restNeeded({ ...A, start: { liquid: 30, bath: 10 } }, 18) as number;
    expect(temperaturesAfter(A.nodes, NO_POWER, { liquid: 30, bath: 10 }, rest).liquid).toBeCloseTo(
      18,
      9,
    );
  });

  it.each([-41, 151, Number.NaN])("refuses %d °C", (t) => {
    expect(() => restNeeded(A, t)).toThrow(OutOfRangeError);
  });
});

describe("longestStint(bench, ceiling, longest)", () => {
  it("is the way to the ceiling where the bath is not the warmer", () => {
    // As A: 32 °C is reached at 2143.58306 s and the liquid cools at once. computed
    expect(longestStint(A, 32, 1e5)).toBeCloseTo(2143.58306, 3);
  });

  it("is shorter where the liquid goes on warming, and peaks at the ceiling", () => {
    // As B: a stint of 30 min peaks at 32.0951174 °C. computed
    expect(longestStint(B, 32.0951174, 1e5)).toBeCloseTo(1800, 3);
    for (const bench of [B, withHeater(B, 50, 28)]) {
      const time = longestStint(bench, 32, 1e5) as number;
      expect(time).toBeLessThan(firstTimeAbove(heatProgramme(single(bench, 9000)), 32) as number);
      const peak = (stint: number) => peakLiquid(heatProgramme(single(bench, stint, 9000)));
      expect(peak(time).temperature).toBeCloseTo(32, 8);
      expect(peak(time + 1).temperature).toBeGreaterThan(32.0005);
    }
  });

  it("has no limit from the steady temperature up", () => {
    // As B: 59.59537572 °C. computed
    expect(longestStint(B, 59.5953758, 3600)).toBeNull();
    const late = longestStint(B, 59.595, 1e6) as number;
    expect(late).toBeGreaterThan(20_000);
    expect(late).toBeLessThan(1e6);
    // As A: 46.04132231 °C. computed
    expect(longestStint(A, 46.0413224, 3600)).toBeNull();
    expect(longestStint(A, 46.041, 1e6)).toBeGreaterThan(20_000);
    for (const bench of [A, B]) {
      const steady = steadyTemperatures(bench.nodes, bench.sonication);
      expect(longestStint(bench, steady!.liquid, 1e6)).toBeNull();
    }
  });

  it("has no limit without power, or where the heat leaves the liquid alone", () => {
    expect(longestStint({ ...A, sonication: NO_POWER }, 24.1, 3600)).toBeNull();
    const apart = { ...A.nodes, exchangeConductance: 0, bathLossConductance: 0 };
    expect(longestStint({ ...A, nodes: apart }, 52, 3600)).toBeNull();
    expect(longestStint({ ...A, nodes: apart }, 50, 1e6)).toBeGreaterThan(3600);
  });

  it("is at most the longest of interest", () => {
    expect(longestStint(A, 32, 1200)).toBe(1200);
    const lossless = { ...A.nodes, liquidLossConductance: 0, bathLossConductance: 0 };
    expect(longestStint({ ...A, nodes: lossless }, 150, 3600)).toBe(3600);
  });

  it("is 0 from the ceiling up, and where the bath alone is too hot", () => {
    expect(longestStint(A, 24, 3600)).toBe(0);
    expect(longestStint(A, 20, 3600)).toBe(0);
    expect(longestStint({ ...A, start: { liquid: 24, bath: 60 } }, 32, 3600)).toBe(0);
    expect(longestStint(withHeater(A, 200, 50), 32, 3600)).toBe(0);
  });

  it("never passes the ceiling, and a little more would, whatever the coefficients", () => {
    fc.assert(
      fc.property(anyBench, temperature, (bench, ceiling) => {
        const time = longestStint(bench, ceiling, 1e5);
        const peak = (stint: number) =>
          peakLiquid(heatProgramme(single(bench, stint, 1e6))).temperature - ceiling;
        if (time === null) expect(peak(1e6)).toBeLessThanOrEqual(1e-8);
        else if (time >= 1) {
          expect(peak(time)).toBeLessThanOrEqual(1e-8);
          if (time < 1e5) expect(peak(time * 1.0001)).toBeGreaterThanOrEqual(0);
        }
      }),
      SEED,
    );
  });

  it.each([-41, 151, Number.NaN])("refuses a ceiling of %d °C", (ceiling) => {
    expect(() => longestStint(A, ceiling, 3600)).toThrow(OutOfRangeError);
  });

  it.each([0.9, 1.1e6, Number.NaN])("refuses a longest time of %d s", (longest) => {
    expect(() => longestStint(A, 32, longest)).toThrow(OutOfRangeError);
  });
});

describe("sampleProgramme(pieces, count)", () => {
  it("has the joints among exactly as many points as asked for", () => {
    const pieces = heatProgramme(SIX_HOURS);
    for (const count of [pieces.length + 1, 100, 500]) {
      const points = sampleProgramme(pieces, count);
      expect(points).toHaveLength(count);
      const times = points.map(({ time }) => time);
      for (const { start } of pieces) expect(times).toContain(start);
      expect(times.at(-1)).toBe(21_600);
      times.slice(1).forEach((time, i) => {
        expect(time).toBeGreaterThan(times[i] as number);
      });
    }
  });

  it("has the programme's temperatures, spread over its time", () => {
    const pieces = heatProgramme(SIX_HOURS);
    const points = sampleProgramme(pieces, 500);
    points.forEach(({ time, liquid, bath }, i) => {
      const there = programmeAt(pieces, time);
      expect(liquid).toBeCloseTo(there.liquid, 9);
      expect(bath).toBeCloseTo(there.bath, 9);
      if (i > 0) expect(time - points[i - 1]!.time).toBeLessThan((2 * 21_600) / 499);
    });
  });

  it("refuses fewer points than joints, too many, and half a point", () => {
    const pieces = heatProgramme(SIX_HOURS);
    for (const count of [pieces.length, 1e7, Number.NaN])
      expect(() => sampleProgramme(pieces, count)).toThrow(OutOfRangeError);
    expect(() => sampleProgramme(pieces, 100.5)).toThrow(TypeError);
  });
});
