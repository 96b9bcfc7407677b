import * as fc from "fast-check";
import * as v from "valibot";
import { describe, expect, it } from "vitest";
import {
  entriesOf,
  EVENING_KEYS,
  type INGREDIENTS,
  lastMade,
  loggedValues,
  logSchema,
  OFFSET_LIMITS,
  secondsSince,
  stamp,
  stepNow,
  TIME_LIMITS,
  timeOf,
  undone,
  wallClock,
  weighedIn,
  type Entry,
  type Log,
  type Noted,
} from "../../../lib/batch/log.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { entries } from "../../helpers/records.ts";

const AT = "2026-11-25T20:00:00.000+01:00";
const START = Date.parse(AT);
const HOUR = 3_600_000;

function step(at: string, name = "blend-1"): Entry {
  return { kind: "step", at, step: name };
}
function weighed(
  ingredient: (typeof INGREDIENTS)[number],
  reading: number,
  vessel = 1,
  of?: number,
): Entry {
  return { kind: "weighed", at: AT, vessel, ingredient, reading, ...(of !== undefined && { of }) };
}

describe("stamp(time, offset)", () => {
  // RFC 3339 (2002), section 5.8: 1937 in Amsterdam, 20 minutes ahead. memory
  it("writes the example of the standard", () => {
    expect(stamp(Date.UTC(1937, 0, 1, 11, 40, 27, 870), 20)).toBe("1937-01-01T12:00:27.870+00:20");
  });
  it.each([
    [0, "2026-11-25T19:00:00.000+00:00"],
    [60, "2026-11-25T20:00:00.000+01:00"],
    [330, "2026-11-26T00:30:00.000+05:30"],
    [345, "2026-11-26T00:45:00.000+05:45"],
    [-210, "2026-11-25T15:30:00.000-03:30"],
    [-30, "2026-11-25T18:30:00.000-00:30"],
    [840, "2026-11-26T09:00:00.000+14:00"],
  ])("shows the clock on a wall %d minutes ahead of UTC", (offset, text) => {
    expect(stamp(START, offset)).toBe(text);
  });
  it("is read back to the same moment, whatever hangs on the wall", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: TIME_LIMITS.min, max: TIME_LIMITS.max }),
        fc.integer({ min: OFFSET_LIMITS.min, max: OFFSET_LIMITS.max }),
        (time, offset) => {
          const entry = step(stamp(time, offset));
          expect(timeOf(entry)).toBe(time);
          expect(v.safeParse(logSchema, [entry]).success).toBe(true);
        },
      ),
      { seed: 3339 },
    );
  });
  it.each([TIME_LIMITS.min - 1, TIME_LIMITS.max + 1, Number.NaN, Infinity])(
    "refuses the time %d",
    (time) => {
      expect(() => stamp(time, 0)).toThrow(OutOfRangeError);
    },
  );
  it.each([OFFSET_LIMITS.min - 1, OFFSET_LIMITS.max + 1, Number.NaN])(
    "refuses a clock %d minutes ahead",
    (offset) => {
      expect(() => stamp(START, offset)).toThrow(OutOfRangeError);
    },
  );
});

describe("wallClock(entry)", () => {
  it("tells the two half past twos of an autumn night apart by their offset alone", () => {
    const before = step(stamp(Date.UTC(2026, 9, 25, 0, 30), 120));
    const after = step(stamp(Date.UTC(2026, 9, 25, 1, 30), 60));
    expect([wallClock(before), wallClock(after)]).toEqual(["02:30", "02:30"]);
    expect(secondsSince([before, after], before, after)).toBe(3600);
  });
});

describe("secondsSince(log, from, until)", () => {
  it("counts what passed when the clocks go forward in spring", () => {
    const from = step(stamp(Date.UTC(2026, 2, 29, 0, 50), 60));
    const until = step(stamp(Date.UTC(2026, 2, 29, 1, 10), 120));
    expect([wallClock(from), wallClock(until)]).toEqual(["01:50", "03:10"]);
    expect(secondsSince([from, until], from, until)).toBe(1200);
  });
  it("counts across midnight", () => {
    const from = step("2026-11-25T23:50:00.000+01:00");
    expect(secondsSince([from], from, timeOf(from) + HOUR)).toBe(3600);
  });

  // Ten minutes, then the clock is set back by an hour, then five minutes.
  const from = step(AT);
  const read: Entry = { kind: "read", at: stamp(START + 300_000, 60), liquid: 20 };
  const jump: Entry = { kind: "clock", at: stamp(START + 600_000 - HOUR, 60), by: -3600 };
  const later = step(stamp(START + 900_000 - HOUR, 60), "rest-1");
  const log: Log = [from, read, jump, later];

  it("takes a jump of the clock out of what lies after it", () => {
    expect(secondsSince(log, from, timeOf(later))).toBe(900);
    expect(secondsSince(log, from, later)).toBe(900);
  });
  it("leaves what lies before the jump, though the clock showed more then", () => {
    expect(secondsSince(log, from, read)).toBe(300);
    expect(secondsSince(log, later, timeOf(later) + 60_000)).toBe(60);
  });
  it("takes out a jump forward, and several", () => {
    const ahead: Entry = { kind: "clock", at: stamp(START + 960_000, 60), by: 3600 };
    expect(secondsSince([...log, ahead], from, START + 960_000)).toBe(960);
  });
  it("is below zero only where nobody saw the clock set back", () => {
    expect(secondsSince([from], from, START - 60_000)).toBe(-60);
  });
});

describe("stepNow(log), lastMade(log) and undone(log)", () => {
  const clock: Entry = { kind: "clock", at: AT, by: -60 };
  const note: Entry = { kind: "note", at: AT, text: "foamy" };
  const end: Entry = { kind: "end", at: AT };
  it("finds the step that goes on, none before the first and after the last", () => {
    expect(stepNow([])).toBeUndefined();
    expect(stepNow([step(AT), note, step(AT, "rest-1"), clock])).toMatchObject({ step: "rest-1" });
    expect(stepNow([step(AT), end, note])).toBeUndefined();
  });
  it("takes away the last entry that somebody made, and leaves the clock's", () => {
    const log = [step(AT), note, clock];
    expect(lastMade(log)).toBe(note);
    expect(undone(log)).toEqual([step(AT), clock]);
    expect(stepNow(undone([step(AT), end]))).toMatchObject({ step: "blend-1" });
    expect(undone([])).toEqual([]);
  });
});

describe("weighedIn(log)", () => {
  it("takes each reading less the one before it", () => {
    const log = [weighed("water", 0.25), weighed("spirit", 0.37), weighed("lecithin", 0.4)];
    const masses = weighedIn(log);
    expect(masses.get("water")).toBe(0.25);
    expect(masses.get("spirit")).toBeCloseTo(0.12, 12);
    expect(masses.get("lecithin")).toBeCloseTo(0.03, 12);
    expect(masses.has("ascorbic acid")).toBe(false);
  });
  it("adds up two additions of one ingredient, and takes off what was taken out again", () => {
    const log = [
      weighed("water", 0.2),
      weighed("spirit", 0.34),
      weighed("water", 0.39),
      weighed("ascorbic acid", 0.46),
      weighed("ascorbic acid", 0.44),
    ];
    const masses = weighedIn(log);
    expect(masses.get("water")).toBeCloseTo(0.25, 12);
    expect(masses.get("ascorbic acid")).toBeCloseTo(0.05, 12);
  });
  it("tares each vessel by itself, in whatever order they are filled", () => {
    const log = [
      weighed("water", 0.2, 1),
      weighed("water", 0.3, 2),
      weighed("spirit", 0.25, 1),
      weighed("spirit", 0.36, 2),
    ];
    const masses = weighedIn(log);
    expect(masses.get("water")).toBeCloseTo(0.5, 12);
    expect(masses.get("spirit")).toBeCloseTo(0.11, 12);
  });
  it("changes nothing when one goes on as it is", () => {
    const log = [weighed("water", 0.3), { ...weighed("water", 0.3), accepted: true } as Entry];
    expect(weighedIn(log).get("water")).toBeCloseTo(0.3, 12);
  });
});

describe("loggedValues(log)", () => {
  it("is what the composition starts from", async () => {
    const graph = await loadGraph(["composition", "skimming"]);
    const values = loggedValues([
      weighed("water", 0.4),
      weighed("spirit", 0.6),
      weighed("ascorbic acid", 0.65),
      weighed("lecithin", 0.69),
      { kind: "amount", at: AT, of: "skimmedVolume", value: 2e-5 },
    ]);
    const { inputs, origins } = graph.evaluate("composition", values);
    expect(Object.keys(values).sort()).toEqual([...EVENING_KEYS].sort());
    for (const name of ["waterMass", "spiritMass", "ascorbicAcidMass", "lecithinMass"])
      expect(origins[name], name).toBe("reader");
    expect(inputs["lecithinMass"]).toBeCloseTo(0.04, 12);
    expect(graph.evaluate("skimming", values).inputs["skimmedVolume"]).toBe(2e-5);
  });
  it("lets a later note of an amount take the place of an earlier one, and leaves other amounts", () => {
    const amount = (of: Noted, value: number): Entry => ({ kind: "amount", at: AT, of, value });
    const log = [
      amount("skimmedVolume", 1e-5),
      amount("bottles", 3),
      amount("skimmedVolume", 3e-5),
    ];
    expect(loggedValues(log)).toEqual({ skimmedVolume: 3e-5 });
  });
  it("takes vessels that still wait for an ingredient as those that have it", () => {
    const water = "composition.waterMass";
    expect(loggedValues([weighed("water", 0.2, 1, 3)])[water]).toBeCloseTo(0.6, 12);
    const two = [weighed("water", 0.2, 1, 3), weighed("water", 0.22, 2, 3)];
    expect(loggedValues(two)[water]).toBeCloseTo(0.63, 12);
    expect(loggedValues([...two, weighed("water", 0.21, 3, 3)])[water]).toBeCloseTo(0.63, 12);
  });
  it("counts the vessels in the log where it is not said how many there are", () => {
    const log = [weighed("water", 0.2, 1), weighed("spirit", 0.3, 1), weighed("water", 0.2, 2)];
    expect(loggedValues(log)["composition.spiritMass"]).toBeCloseTo(0.2, 12);
    expect(loggedValues([])).toEqual({});
  });
});

describe("logSchema", () => {
  it("reads back what was written", () => {
    fc.assert(
      fc.property(fc.array(entries, { maxLength: 30 }), (log) => {
        expect(v.parse(logSchema, JSON.parse(JSON.stringify(log)))).toEqual(log);
      }),
      { seed: 7 },
    );
  });
  it("takes an amount from the least to the most that it can be", () => {
    const takes = (of: Noted, value: number): boolean =>
      v.safeParse(logSchema, [{ kind: "amount", at: AT, of, value }]).success;
    for (const [of, most] of [
      ["bottles", 1000],
      ["skimmedVolume", 0.02],
    ] as const) {
      expect([takes(of, 0), takes(of, most)], of).toEqual([true, true]);
      expect([takes(of, -0.001), takes(of, most * 1.001)], of).toEqual([false, false]);
    }
  });
  it.each([
    ["a 31st of February", { kind: "end", at: "2026-02-31T20:00:00.000Z" }],
    ["a moment without its offset", { kind: "end", at: "2026-02-01T20:00:00.000" }],
    ["a reading below nothing", { ...weighed("water", -0.001) }],
    ["more foam than a batch", { kind: "amount", at: AT, of: "skimmedVolume", value: 0.03 }],
    ["vessel 0", weighed("water", 0.1, 0)],
    ["an ingredient of another recipe", { ...weighed("water", 0.1), ingredient: "sugar" }],
    ["a probe beyond its range", { kind: "read", at: AT, liquid: 151 }],
    ["a step by another name", step(AT, "Blend 1")],
    ["an entry with more in it", { kind: "end", at: AT, extra: 1 }],
  ])("refuses %s", (_, bad) => {
    expect(v.safeParse(logSchema, [bad]).success).toBe(false);
  });
});

describe("entriesOf(log, kind)", () => {
  it("keeps their order", () => {
    const log = [step(AT, "a"), weighed("water", 0.1), step(AT, "b")];
    expect(entriesOf(log, "step").map((entry) => entry.step)).toEqual(["a", "b"]);
  });
});
