import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayAfter, isDay, LABEL_SIZES } from "../../../lib/batch/label.ts";

const DAY = 86_400;

describe("isDay(text)", () => {
  it.each(["2026-01-01", "2024-02-29", "2026-12-31", "0001-01-01", "9999-12-31"])(
    "takes %s",
    (text) => expect(isDay(text)).toBe(true),
  );

  it.each([
    "",
    "2026-02-29",
    "2026-04-31",
    "2026-13-01",
    "2026-00-10",
    "2026-1-1",
    "14.3.2026",
    "2026-03-14T00:00",
    " 2026-03-14",
    "12026-03-14",
  ])("refuses “%s”", (text) => expect(isDay(text)).toBe(false));
});

describe("dayAfter(day, time)", () => {
  it.each([
    ["2026-03-01", 14 * DAY, "2026-03-15"],
    ["2024-02-28", 1 * DAY, "2024-02-29"],
    ["2026-02-28", 1 * DAY, "2026-03-01"],
    ["2025-12-25", 7 * DAY, "2026-01-01"],
    // Across the days on which clocks change.
    ["2026-03-28", 2 * DAY, "2026-03-30"],
    ["2026-10-24", 2 * DAY, "2026-10-26"],
  ])("counts from %s by %d s to %s", (from, time, to) => expect(dayAfter(from, time)).toBe(to));

  it("leaves off part of a day, and nothing of a whole one", () => {
    expect(dayAfter("2026-03-01", 13.99 * DAY)).toBe("2026-03-14");
    expect(dayAfter("2026-03-01", 0)).toBe("2026-03-01");
    expect(dayAfter("2026-03-01", 3 * (0.1 * DAY) * (10 / 3))).toBe("2026-03-02");
  });

  it("goes there in two steps as in one", () => {
    fc.assert(
      fc.property(fc.nat(20_000), fc.nat(20_000), (first, second) => {
        const between = dayAfter("2026-01-01", first * DAY);
        expect(dayAfter(between!, second * DAY)).toBe(
          dayAfter("2026-01-01", (first + second) * DAY),
        );
      }),
      { seed: 17, numRuns: 200 },
    );
  });

  it.each([1e12, 1e21, Number.POSITIVE_INFINITY])("has no day %d s later", (time) => {
    expect(dayAfter("2026-01-01", time)).toBeUndefined();
  });
});

describe("LABEL_SIZES", () => {
  it("fit A4 and Letter paper with a margin of 8 mm, two at least beside each other", () => {
    for (const { width, height } of Object.values(LABEL_SIZES)) {
      expect(2 * width).toBeLessThanOrEqual(210 - 16);
      expect(3 * height).toBeLessThanOrEqual(279 - 16);
    }
  });
});
