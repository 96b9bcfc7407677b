import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  clockText,
  lengthText,
  roughLengthText,
  offsetAt,
  wallClockAt,
  watchClock,
} from "../../../components/bench/clock.ts";

describe("offsetAt(time) and wallClockAt(time)", () => {
  const zone = process.env["TZ"];
  beforeEach(() => {
    process.env["TZ"] = "Europe/Berlin";
  });
  afterEach(() => {
    if (zone === undefined) delete process.env["TZ"];
    else process.env["TZ"] = zone;
  });
  it("follow summer time as it begins and ends in the night", () => {
    const spring = Date.UTC(2026, 2, 29, 0, 59);
    const autumn = Date.UTC(2026, 9, 25, 0, 59);
    expect([offsetAt(spring), offsetAt(spring + 60_000)]).toEqual([60, 120]);
    expect([wallClockAt(spring), wallClockAt(spring + 60_000)]).toEqual(["01:59", "03:00"]);
    expect([offsetAt(autumn), offsetAt(autumn + 60_000)]).toEqual([120, 60]);
    expect([wallClockAt(autumn), wallClockAt(autumn + 60_000)]).toEqual(["02:59", "02:00"]);
  });
});

describe("watchClock(wall, steady)", () => {
  it("tells once by how much the clock was set back", () => {
    let [wall, steady] = [1e12, 0];
    const setBack = watchClock(
      () => wall,
      () => steady,
    );
    wall += 250;
    steady += 250;
    expect(setBack()).toBe(0);
    wall += 250 - 3_600_000;
    steady += 250;
    expect(setBack()).toBe(-3600);
    expect(setBack()).toBe(0);
  });
  it("leaves a jump forward alone, and what the network mends", () => {
    let [wall, steady] = [1e12, 0];
    const setBack = watchClock(
      () => wall,
      () => steady,
    );
    wall += 8 * 3_600_000; // The device slept.
    steady += 10;
    expect(setBack()).toBe(0);
    wall -= 1900;
    expect(setBack()).toBe(0);
    wall -= 2000;
    expect(setBack()).toBe(-2);
  });
});

describe("clockText(seconds)", () => {
  it.each([
    [0, "0:00"],
    [59.9, "0:59"],
    [65, "1:05"],
    [600, "10:00"],
    [3599, "59:59"],
    [3600, "1:00:00"],
    [7325, "2:02:05"],
  ])("shows %d s as %s", (seconds, text) => {
    expect(clockText(seconds)).toBe(text);
  });
});

describe("roughLengthText(seconds)", () => {
  it.each([
    [37, "37 s"],
    [521, "9 min"],
    [599, "10 min"],
    [640, "10 min"],
    [752, "15 min"],
    [7260, "2 h"],
    [9264, "2 h 35 min"],
  ])("says %d s as %s", (seconds, text) => {
    expect(roughLengthText(seconds).replaceAll("\u00a0", " ")).toBe(text);
  });
});

describe("lengthText(seconds)", () => {
  it.each([
    [40, "40 s"],
    [89, "89 s"],
    [90, "2 min"],
    [480, "8 min"],
    [3600, "1 h"],
    [4800, "1 h 20 min"],
  ])("says %d s as %s", (seconds, text) => {
    expect(lengthText(seconds).replaceAll("\u00a0", " ")).toBe(text);
  });
});
