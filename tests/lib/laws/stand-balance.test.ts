import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { STANDARD_GRAVITY } from "../../../lib/laws/gravity.ts";
import { counterweightFor, momentsAbout, tippingPush } from "../../../lib/laws/stand-balance.ts";

const G = STANDARD_GRAVITY;
const STAND = [
  { mass: 1.5, ahead: 0.06 },
  { mass: 0.3, ahead: 0 },
  { mass: 0.35, ahead: 0.1 },
];

describe("momentsAbout(edge, parts)", () => {
  it("adds up a stand with a beaker on it", () => {
    // Base 1.5 kg at 60 mm, rod 0.30 kg at 0, clamp 0.35 kg at 100 mm, beaker 0.75 kg at 250 mm, edge at
    // 160 mm: 0.2190 and 0.0675 kg m, ratio 3.2444. computed
    const { tipping, restoring } = momentsAbout(0.16, [...STAND, { mass: 0.75, ahead: 0.25 }]);
    expect(restoring / G).toBeCloseTo(0.219, 12);
    expect(tipping / G).toBeCloseTo(0.0675, 12);
    expect(restoring / tipping).toBeCloseTo(3.2444, 4);
  });

  it("balances a stand of 11.4 N by 9 N at 228 mm", () => {
    // School physics question on a retort stand, mark scheme. seen
    const { tipping, restoring } = momentsAbout(0, [
      { mass: 11.4 / G, ahead: -0.18 },
      { mass: 9 / G, ahead: 0.228 },
    ]);
    expect(restoring / tipping).toBeCloseTo(1, 4);
  });

  it("balances a round table of 80 N on four legs by 193.14 N at its edge", () => {
    // Forum thread on a textbook problem: the line through two feet is nearer than the edge. computed
    const line = 0.5 * Math.cos(Math.PI / 4);
    const { tipping, restoring } = momentsAbout(line, [
      { mass: 80 / G, ahead: 0 },
      { mass: 193.14 / G, ahead: 0.5 },
    ]);
    expect(restoring / tipping).toBeCloseTo(1, 4);
  });

  it("balances a rod that is pressed at its end by 0.365 N, 78.454 mm out", () => {
    // Forum thread on a textbook problem: 0.110 kg, 210 mm, at the edge of a table. computed
    const { tipping, restoring } = momentsAbout(0, [
      { mass: 0.11, ahead: 0.078454 - 0.105 },
      { mass: 0.365 / G, ahead: 0.078454 },
    ]);
    expect(restoring / tipping).toBeCloseTo(1, 4);
  });

  it("counts nothing for what stands on the edge, and little beside it", () => {
    expect(momentsAbout(0.1, [{ mass: 1, ahead: 0.1 }])).toEqual({ tipping: 0, restoring: 0 });
    expect(momentsAbout(0.1, [{ mass: 1, ahead: 0.1 + 1e-9 }]).tipping).toBeGreaterThan(0);
    expect(momentsAbout(0.1, [{ mass: 1, ahead: 0.1 - 1e-9 }]).restoring).toBeGreaterThan(0);
  });

  it.each([
    [2.01, 1, 0],
    [-2.01, 1, 0],
    [0, -0.1, 0],
    [0, 101, 0],
    [0, 1, 2.01],
    [Number.NaN, 1, 0],
    [0, Number.NaN, 0],
    [0, 1, Number.NaN],
  ])("refuses an edge at %d m with %d kg at %d m", (edge, mass, ahead) => {
    expect(() => momentsAbout(edge, [{ mass, ahead }])).toThrow(OutOfRangeError);
  });
});

describe("counterweightFor(moments, lever, safetyFactor)", () => {
  it("asks 1.065 kg for a ratio of 1.5, and 0.345 kg for a bare balance", () => {
    // The same stand with 1.20 kg at 400 mm, counterweight 40 mm behind the rod; 0.76042 without. computed
    const moments = momentsAbout(0.16, [...STAND, { mass: 1.2, ahead: 0.4 }]);
    expect(moments.restoring / moments.tipping).toBeCloseTo(0.76042, 5);
    expect(counterweightFor(moments, 0.2, 1.5)).toBeCloseTo(1.065, 9);
    expect(counterweightFor(moments, 0.2, 1)).toBeCloseTo(0.345, 9);
  });

  it("asks 3.8 kg on a radius of 250 mm for 1 kg at 1.20 m", () => {
    // Forum question on a magnifier’s base, moments about the edge: m (L − r)/r. computed
    const moments = momentsAbout(0.25, [{ mass: 1, ahead: 1.2 }]);
    expect(counterweightFor(moments, 0.25, 1)).toBeCloseTo(3.8, 9);
  });

  it("gives the wanted ratio once it is laid on", () => {
    const parts = [...STAND, { mass: 2, ahead: 0.5 }];
    const mass = counterweightFor(momentsAbout(0.16, parts), 0.16 + 0.03, 2.5);
    const { tipping, restoring } = momentsAbout(0.16, [...parts, { mass, ahead: -0.03 }]);
    expect(restoring / tipping).toBeCloseTo(2.5, 12);
  });

  it("asks for none where the stand holds", () => {
    expect(counterweightFor({ tipping: 1, restoring: 2 }, 0.2, 2)).toBe(0);
    expect(counterweightFor({ tipping: 1, restoring: 2 }, 0.2, 2.001)).toBeGreaterThan(0);
  });

  it.each([
    [-1, 1, 0.2, 2],
    [1, -1, 0.2, 2],
    [1, 4001, 0.2, 2],
    [1, 1, 0, 2],
    [1, 1, 4.1, 2],
    [1, 1, 0.2, 0.99],
    [1, 1, 0.2, 10.1],
    [Number.NaN, 1, 0.2, 2],
    [1, 1, Number.NaN, 2],
    [1, 1, 0.2, Number.NaN],
  ])("refuses %d and %d N m, %d m, factor %d", (tipping, restoring, lever, factor) => {
    expect(() => counterweightFor({ tipping, restoring }, lever, factor)).toThrow(OutOfRangeError);
  });
});

describe("tippingPush(moments, height)", () => {
  it("is 3.30 N at 450 mm for the stand above", () => {
    // Restoring 0.2190, tipping 0.0675 kg m. computed
    const push = tippingPush({ restoring: 0.219 * G, tipping: 0.0675 * G }, 0.45);
    expect(push).toBeCloseTo(3.3016, 4);
  });

  it("is W (b/2)/h for a block", () => {
    // Mississippi State University, friction example 3: 250 lb, base 32 in, push at 66 in. computed
    const inch = 0.0254;
    const pound = 0.45359237 * G;
    const push = tippingPush({ restoring: 250 * pound * 16 * inch, tipping: 0 }, 66 * inch);
    expect(push / pound).toBeCloseTo(60.606, 3);
  });

  it("is none where the stand falls by itself", () => {
    expect(tippingPush({ restoring: 1, tipping: 1 }, 0.3)).toBe(0);
    expect(tippingPush({ restoring: 1, tipping: 2 }, 0.3)).toBe(0);
  });

  it.each([0, 0.009, 2.01, Number.NaN])("refuses a height of %d m", (height) => {
    expect(() => tippingPush({ restoring: 2, tipping: 1 }, height)).toThrow(OutOfRangeError);
  });

  it("refuses a moment below nothing", () => {
    expect(() => tippingPush({ restoring: 2, tipping: -1 }, 0.3)).toThrow(OutOfRangeError);
  });
});
