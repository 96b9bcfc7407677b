import { describe, expect, it } from "vitest";
import { steadyTimes, stretchesOf } from "../../../lib/batch/timeline.ts";
import { evening } from "../../helpers/evening.ts";

describe("steadyTimes(log)", () => {
  it("counts from the first entry, with jumps of the clock taken out", () => {
    const log = evening()
      .step(0, "weigh")
      .step(60, "cool")
      .jump(90, -3600)
      .step(120, "blend-1").log;
    expect(steadyTimes(log)).toEqual([0, 60, 90, 120]);
  });

  it("has no times where nothing was noted", () => {
    expect(steadyTimes([])).toEqual([]);
  });
});

describe("stretchesOf(log)", () => {
  it("ends each step where the next begins, and the last with the end", () => {
    const { log } = evening().step(0, "stint-1").read(30, 24).step(60, "rest-1").end(100);
    expect(stretchesOf(log)).toEqual([
      { step: "stint-1", start: 0, end: 60 },
      { step: "rest-1", start: 60, end: 100 },
    ]);
  });

  it("leaves open what goes on, and keeps what is begun twice", () => {
    const { log } = evening().step(0, "rest-1").step(60, "rest-1");
    expect(stretchesOf(log)).toEqual([
      { step: "rest-1", start: 0, end: 60 },
      { step: "rest-1", start: 60, end: null },
    ]);
  });
});
