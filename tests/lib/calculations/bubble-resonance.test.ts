import { describe, expect, it } from "vitest";
import { graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BATH = {
  soundFrequency: 40e3,
  airPressure: 101_325,
  "bubble-resonance.liquidDensity": 998.207,
  bubbleDepth: 0,
};

describe("bubble-resonance", () => {
  it("gives Minnaert’s radius, from one that keeps its temperature to one with tension", () => {
    // Minnaert (1933): 69.433 and 82.155 µm; with 0.0728 N/m 82.697 µm. computed
    const radius = graph.run("bubble-resonance", BATH)!["resonanceRadius"]!;
    expect(radius.low * 1e6).toBeCloseTo(69.433, 3);
    expect(radius.value * 1e6).toBeCloseTo(82.1548, 4);
    expect(radius.high * 1e6).toBeCloseTo(82.6968, 4);
  });

  it("halves with twice the frequency", () => {
    const once = valuesOf("bubble-resonance", BATH)["resonanceRadius"]!;
    const twice = valuesOf("bubble-resonance", { ...BATH, soundFrequency: 80e3 });
    expect(once / twice["resonanceRadius"]!).toBeCloseTo(2, 12);
  });

  it("counts the liquid above: a metre presses by a tenth", () => {
    const deep = valuesOf("bubble-resonance", { ...BATH, bubbleDepth: 1 });
    expect(deep["localPressure"]).toBeCloseTo(101_325 + 998.207 * 9.80665, 6);
    expect(deep["resonanceDiameter"]! / deep["resonanceRadius"]!).toBe(2);
  });

  it("refuses what is no ultrasound", () => {
    expect(refusalsOf("bubble-resonance", { ...BATH, soundFrequency: 50 })).toEqual([
      { input: "frequency", says: expect.stringMatching(/must be from 1\skHz/) as string },
    ]);
  });
});
