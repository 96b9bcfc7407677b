import { describe, expect, it } from "vitest";
import { refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const WATER = {
  "stefan-tube.diffusivity": 0.25e-4,
  airPressure: 101_325,
  tubeTemperature: 293 - 273.15,
  "stefan-tube.surfacePressure": 17.54 * 133.322,
  tubeLength: 0.1524,
  vapourMolarMass: 0.018015,
  openArea: 1e-4,
};

describe("stefan-tube", () => {
  it("dries water from a narrow tube as in the textbook", () => {
    // Geankoplis, example 6.2-2: 1.595e-7 kmol/(m² s). seen (inputs), memory (printed answer)
    expect(valuesOf("stefan-tube", WATER)["flux"]! / 1.595e-4).toBeCloseTo(1, 2);
  });

  it("halves with twice the length and doubles with the area", () => {
    const once = valuesOf("stefan-tube", WATER);
    const long = valuesOf("stefan-tube", { ...WATER, tubeLength: 2 * WATER.tubeLength });
    const wide = valuesOf("stefan-tube", { ...WATER, openArea: 2e-4 });
    expect(once["massRate"]! / long["massRate"]!).toBeCloseTo(2, 12);
    expect(wide["massRate"]! / once["massRate"]!).toBeCloseTo(2, 12);
    expect(once["flux"]! * 1e-4 * 0.018015).toBeCloseTo(once["massRate"]!, 15);
  });

  it("is plain diffusion for a trace, and more where vapour is plenty", () => {
    const trace = valuesOf("stefan-tube", { ...WATER, "stefan-tube.surfacePressure": 1 });
    expect(trace["flux"]! / trace["plainFlux"]!).toBeCloseTo(1, 4);
    const much = valuesOf("stefan-tube", { ...WATER, "stefan-tube.surfacePressure": 50_000 });
    expect(much["flux"]! / much["plainFlux"]!).toBeCloseTo(much["driftFactor"]!, 9);
    expect(much["driftFactor"]).toBeGreaterThan(1.3);
  });

  it("passes nothing where nothing evaporates", () => {
    expect(valuesOf("stefan-tube", { alcoholStrength: 0 })["massRate"]).toBe(0);
  });

  it("ends at the boiling point, and says so", () => {
    const boiling = { ...WATER, "stefan-tube.surfacePressure": 101_300 };
    expect(refusalsOf("stefan-tube", boiling)).toEqual([
      { input: "surfacePressure", says: expect.stringMatching(/boils/) as string },
    ]);
    const near = { ...WATER, "stefan-tube.surfacePressure": 0.999 * 101_325 };
    expect(refusalsOf("stefan-tube", near)).toEqual([]);
  });
});
