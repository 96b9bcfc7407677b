import { describe, expect, it } from "vitest";
import {
  ageText,
  alarmOf,
  alarmText,
  isNewCrossing,
  liquidText,
  probeFigure,
  switchOffText,
  toCeilingText,
  type CeilingAlarm,
  type Sight,
} from "../../../components/bench/probe-text.ts";
import { DERIVED, derivationOf } from "../../../components/batch/derivations.ts";
import { deviationsOf } from "../../../lib/batch/deviations.ts";
import { forecastOf, type Predicted } from "../../../lib/batch/forecast.ts";
import { scheduleBatch } from "../../../lib/batch/schedule.ts";
import { firstUnit, type UnitChoice } from "../../../lib/calculations/say.ts";
import { graph } from "../../helpers/calculations.ts";
import { EVENING, evening, type Evening } from "../../helpers/evening.ts";

const scheduled = scheduleBatch(graph, {});
const steps = scheduled.ok ? scheduled.steps : [];
const fahrenheit: UnitChoice = (of) => (of.dimension === "temperature" ? "°F" : firstUnit(of));

function predicted(made: Evening, time: number): Predicted {
  const forecast = forecastOf(graph, made.batch(), steps, made.now(time));
  if (!forecast.ok) throw new Error("no forecast");
  return forecast;
}

const REACH = { value: 600, low: 300, high: null };
const NEVER = { value: null, low: null, high: null };
const RUNNING = { ...predicted(evening().step(0, "stint-1"), 60), toCeiling: REACH, runFor: REACH };
const RESTING = { ...RUNNING, running: false };

describe("alarmOf(sight)", () => {
  const sight: Sight = {
    forecast: RUNNING,
    passed: 0,
    reading: undefined,
    age: undefined,
    ceiling: 32,
    heeded: true,
  };

  it("is quiet until a minute before the earliest time", () => {
    expect(alarmOf({ ...sight, passed: 239 })).toBeUndefined();
    expect(alarmOf({ ...sight, passed: 240 })).toBe("near-ceiling");
    expect(alarmOf({ ...sight, forecast: { ...RUNNING, toCeiling: NEVER } })).toBeUndefined();
  });

  it("calls at a reading of the ceiling, with or without a forecast", () => {
    const hot = { ...RUNNING, liquid: { value: 32, low: 31, high: 33 } };
    expect(alarmOf({ ...sight, forecast: hot, reading: 32 })).toBe("ceiling");
    expect(alarmOf({ ...sight, forecast: undefined, reading: 32 })).toBe("ceiling");
    expect(alarmOf({ ...sight, forecast: undefined, reading: 31.9 })).toBeUndefined();
  });

  it("only asks for a new reading once that one is old", () => {
    const hot = { ...sight, forecast: undefined, reading: 45 };
    expect(alarmOf({ ...hot, age: 599 })).toBe("ceiling");
    expect(alarmOf({ ...hot, age: 600 })).toBe("old-reading");
    expect(alarmOf({ ...hot, age: 600, reading: 31 })).toBeUndefined();
  });

  it("is quiet again once the liquid is below it by all that is likely", () => {
    const cold = { ...RUNNING, liquid: { value: 29, low: 28, high: 30 } };
    expect(alarmOf({ ...sight, forecast: cold, reading: 32 })).toBeUndefined();
  });

  it("is quiet in a step that the ceiling is not meant for", () => {
    expect(alarmOf({ ...sight, passed: 299, reading: 40, heeded: false })).toBeUndefined();
  });
});

describe("isNewCrossing(before, now)", () => {
  it.each([
    [undefined, undefined, false],
    [undefined, "near-ceiling", true],
    [undefined, "ceiling", true],
    ["near-ceiling", "near-ceiling", false],
    ["near-ceiling", "ceiling", true],
    ["ceiling", "ceiling", false],
    ["ceiling", "near-ceiling", false],
    ["ceiling", undefined, false],
    ["ceiling", "old-reading", false],
    [undefined, "old-reading", false],
    ["old-reading", "ceiling", true],
  ] as const)("from %s to %s: %s", (before, now, is) => {
    expect(isNewCrossing(before, now)).toBe(is);
  });
});

describe("alarmText(alarm, running, sight, unitFor)", () => {
  const told = (
    alarm: CeilingAlarm | undefined,
    running: boolean | undefined,
    reading = 32,
    age = 0,
  ): string =>
    alarmText(alarm, running, { reading, ceiling: 32, age }, firstUnit).replaceAll("\u00a0", " ");

  it("says what to do now, and warns of cold on warm glass", () => {
    const text = told("ceiling", true);
    expect(text).toMatch(/^The liquid is at your ceiling\. Switch the bath off now\. Lift/);
    expect(text).toContain("No ice");
    expect(told("near-ceiling", undefined)).toMatch(
      /within a minute\. Switch off now, and let the liquid cool/,
    );
    expect(told("near-ceiling", false)).toContain("Leave the bath off");
    expect(told(undefined, true)).toBe("");
  });

  it("says how far above the ceiling the reading is, in the probe's unit", () => {
    expect(told("ceiling", true, 45)).toMatch(/^The liquid is 13 K above your ceiling\. Switch/);
    expect(told("ceiling", true, 32.1)).toMatch(/^The liquid is 0\.1 K above your ceiling\./);
    const rise: UnitChoice = (of) =>
      of.dimension === "temperatureDifference" ? "°F" : firstUnit(of);
    expect(alarmText("ceiling", true, { reading: 42, ceiling: 32, age: 0 }, rise)).toContain(
      "18\u00a0°F above",
    );
  });

  it("asks for a new reading where the last is old, and says until then what to leave off", () => {
    expect(told("old-reading", true, 45, 1500)).toBe(
      "By your last reading, 25 min old, the liquid was 13 K above your ceiling. Stir, and read again; until then switch the bath off.",
    );
    expect(told("old-reading", false, 32, 600)).toMatch(
      /10 min old, the liquid was at your ceiling\. .*until then leave all that warms it off\.$/,
    );
  });
});

describe("toCeilingText(forecast, passed, now, unitFor)", () => {
  it("counts the earliest time down, and names the likely one by the clock", () => {
    expect(toCeilingText(RUNNING, 60, EVENING, firstUnit)).toEqual({
      before: "Earliest at 32\u00a0°C in",
      digits: "4:00",
      after: expect.stringMatching(/^most likely in 9\u00a0min, at \d\d:09$/) as string,
    });
    expect(toCeilingText(RUNNING, 301, EVENING, firstUnit).digits).toBe("0:00");
    expect(toCeilingText(RUNNING, 601, EVENING, firstUnit).after).toBe("most likely by now");
    expect(toCeilingText(RUNNING, 0, EVENING, fahrenheit).before).toContain("89.6\u00a0°F");
  });

  it("says where it is not within six hours, likely or at all", () => {
    const likely = { ...RUNNING, toCeiling: { ...REACH, value: null } };
    expect(toCeilingText(likely, 0, EVENING, firstUnit).after).toBe(
      "most likely not within 6\u00a0h",
    );
    const never = { ...RESTING, toCeiling: NEVER };
    expect(toCeilingText(never, 0, EVENING, firstUnit)).toMatchObject({
      before: expect.stringMatching(/^Left at rest/) as string,
      digits: "–",
      after: "not within 6\u00a0h",
    });
  });
});

describe("switchOffText(forecast, passed, now, unitFor)", () => {
  it("gives the time of day while the bath runs", () => {
    const at = (passed: number): string =>
      switchOffText(RUNNING, passed, EVENING, firstUnit).digits;
    expect(at(0)).toMatch(/:05$/);
    expect(at(120)).toMatch(/:03$/);
    expect(at(300)).toBe("now");
  });

  it("gives how long a stint may last while it rests, which waiting does not use up", () => {
    const { before, digits } = switchOffText(RESTING, 120, EVENING, firstUnit);
    expect(before).toBe("Switched on now, it may run");
    expect(digits).toBe("5\u00a0min");
  });

  it("gives no time where the liquid has to cool first", () => {
    const warm = { ...RESTING, runFor: { ...REACH, low: 0 } };
    expect(switchOffText(warm, 0, EVENING, firstUnit)).toMatchObject({
      before: "Switch on again",
      digits: "not yet",
    });
  });

  it("says that there is no need within six hours", () => {
    const never = { ...RUNNING, runFor: NEVER };
    expect(switchOffText(never, 0, EVENING, firstUnit).after).toBe("no need within 6\u00a0h");
    const resting = switchOffText({ ...never, running: false }, 0, EVENING, firstUnit);
    expect([resting.digits, resting.after]).toEqual(["6\u00a0h", "and longer"]);
  });
});

describe("liquidText(forecast, unitFor)", () => {
  it("gives the liquid with its band in the probe's unit", () => {
    expect(liquidText(RUNNING, firstUnit)).toMatch(/^The liquid by the model: 22\.\d ±\s\d.*°C\.$/);
    expect(liquidText(RUNNING, fahrenheit)).toMatch(/°F\.$/);
  });
});

describe("ageText(age)", () => {
  it("speaks up at ten minutes, and where there is no reading", () => {
    expect(ageText(599)).toBe("");
    expect(ageText(600)).toContain("more than 10\u00a0min old");
    expect(ageText(undefined)).toContain("No reading yet");
  });
});

describe("probeFigure(forecast)", () => {
  it("has one band before a reading, and from a reading on its own", () => {
    const start = evening().step(0, "stint-1");
    const plain = probeFigure(predicted(start, 60));
    expect(plain.bands).toHaveLength(1);
    expect(plain.lines.map(({ label }) => label)).toEqual(["predicted"]);
    const read = probeFigure(predicted(start.read(600, 25).read(660, 25.2), 700));
    expect(read.bands?.map(({ points }) => points[0]?.[0])).toEqual([0, 660]);
    expect(read.bands?.[0]?.points.at(-1)?.[0]).toBeLessThanOrEqual(660);
    expect(read.lines.map(({ label }) => label)).toEqual([
      "from the last reading",
      "from the start",
    ]);
    expect(read.marks?.map(({ x }) => x)).toEqual([600, 660, 700]);
    expect(read.rules?.[0]?.y).toBe(32);
  });
});

describe("deviations and derivations", () => {
  it("meet: whatever went otherwise is derived somewhere", () => {
    const made = evening()
      .step(0, "weigh")
      .weighed(10, "water", 0.1)
      .weighed(20, "spirit", 0.7)
      .step(30, "stint-1")
      .read(60, 35)
      .jump(90, -60)
      .step(100, "weigh")
      .amount(110, "skimmedVolume", 1e-3)
      .amount(120, "bottles", 0)
      .end(130);
    const found = deviationsOf(graph, made.batch());
    expect(new Set(found.map(({ kind }) => kind)).size).toBeGreaterThan(5);
    for (const { derivation } of found) expect(derivationOf(derivation), derivation).toBeDefined();
    expect(DERIVED).toContain("composition");
  });
});
