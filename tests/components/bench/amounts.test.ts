import { describe, expect, it } from "vitest";
import { amountText, readAmount } from "../../../components/bench/amounts.ts";

describe("readAmount(of, text)", () => {
  it.each([
    ["skimmedVolume", "12,5", 12.5e-6],
    ["skimmedVolume", "0.5 fl oz", 14.79e-6],
    ["skimmedMass", "8", 0.008],
    ["bottles", "4", 4],
    ["lastVolume", "0", 0],
    ["skimmedVolume", "20000", 0.02],
  ] as const)("reads as %s: %s", (of, text, value) => {
    expect(readAmount(of, text)).toBeCloseTo(value, 7);
  });
  it.each([
    ["skimmedVolume", "20001", /^Type from 0.mL to/],
    ["skimmedMass", "-1", /^Type from/],
    ["bottles", "3.5", /whole number/],
    ["bottles", "a few", /is not a number/],
    ["lastVolume", "", /^Type a number/],
  ] as const)("says what to type as %s instead of “%s”", (of, text, message) => {
    expect(readAmount(of, text)).toMatch(message);
  });
});

describe("readAmount(of, text, whole)", () => {
  const whole = { volume: 8e-4, mass: 0.83 };
  it.each([
    ["skimmedVolume", "9000", /more than the whole batch, 800.mL/],
    ["skimmedMass", "0,9 kg", /more than the whole batch, 830.g/],
    ["lastVolume", "801", /more than the whole batch/],
    ["skimmedVolume", "20001", /^Type from/],
  ] as const)("refuses as %s %s out of 800 mL", (of, text, message) => {
    expect(readAmount(of, text, whole)).toMatch(message);
  });
  it("takes all of it, and any number of bottles", () => {
    expect(readAmount("skimmedVolume", "800", whole)).toBeCloseTo(8e-4, 9);
    expect(readAmount("bottles", "80", whole)).toBe(80);
  });
});

describe("amountText(of, value)", () => {
  it("says an amount with its unit, and a count without", () => {
    expect(amountText("skimmedVolume", 12.5e-6).replace("\u00a0", " ")).toBe("12.5 mL");
    expect(amountText("bottles", 4)).toBe("4");
  });
});
