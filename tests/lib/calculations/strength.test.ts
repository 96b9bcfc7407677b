import { describe, expect, it } from "vitest";
import { solveFor } from "../../../lib/calculations/solve.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

describe("strength", () => {
  it("gives water and pure alcohol at the ends", () => {
    expect(valuesOf("strength", { spiritStrength: 0 })).toMatchObject({
      massFraction: 0,
      ethanolConcentration: 0,
      usProof: 0,
      ukProof: 0,
    });
    const pure = valuesOf("strength", { spiritStrength: 1 });
    expect(pure["massFraction"]).toBe(1);
    expect(pure["usProof"]).toBeCloseTo(200, 9);
  });

  it("gives a smaller figure by mass than by volume, everywhere between the ends", () => {
    for (let x = 0.01; x < 1; x += 0.01)
      expect(valuesOf("strength", { spiritStrength: x })["massFraction"]).toBeLessThan(x);
  });

  it("holds the same alcohol, counted by mass or by volume", () => {
    const values = valuesOf("strength", { spiritStrength: 0.4 });
    expect(values["massFraction"]! * values["referenceDensity"]!).toBeCloseTo(
      values["ethanolConcentration"]!,
      9,
    );
  });

  it("moves a label of 60 °F to 20 °C, and leaves one of 20 °C alone", () => {
    const at20 = valuesOf("strength", { spiritStrength: 0.5, referenceTemperature: 20 });
    expect(at20["strength20"]).toBeCloseTo(0.5, 12);
    const at60F = valuesOf("strength", { spiritStrength: 0.5, referenceTemperature: 140 / 9 });
    expect(at60F["strength20"]).toBeGreaterThan(0.5);
    expect(at60F["usProof"]).toBeCloseTo(100, 9);
  });

  it("is lighter when warmer, at every strength above water's own odd range", () => {
    for (const spiritStrength of [0.1, 0.4, 0.7, 0.96]) {
      const cold = valuesOf("strength", { spiritStrength, sampleTemperature: 5 })["density"]!;
      const warm = valuesOf("strength", { spiritStrength, sampleTemperature: 30 })["density"]!;
      expect(warm).toBeLessThan(cold);
    }
  });

  it("carries the label's allowance to a band of about ± 0.35 % vol", () => {
    // 0.3 % vol either way as a rectangle: u = 0.3/√3, doubled.
    const { strength20 } = evaluated("strength", { spiritStrength: 0.4 }).values;
    expect(strength20!.high - strength20!.value).toBeCloseTo((2 * 0.003) / Math.sqrt(3), 6);
  });

  it("finds the strength that weighs so much", () => {
    const value = valuesOf("strength", { spiritStrength: 0.4 })["density"]!;
    const solved = solveFor(graph, "strength", {}, { result: "density", value }, "spiritStrength");
    expect(solved.ok && solved.value).toBeCloseTo(0.4, 9);
  });

  it("refuses a spirit that is ice, and says which input to change", () => {
    const refused = refusalsOf("strength", { spiritStrength: 0.1, sampleTemperature: -15 });
    expect(refused.map(({ input }) => input)).toEqual(["temperature"]);
  });

  it("warns of vapour above 20 % vol and not at it", () => {
    expect(cautionsOf("strength", { spiritStrength: 0.2 })).not.toContain("flammable");
    expect(cautionsOf("strength", { spiritStrength: 0.2001 })).toContain("flammable");
  });
});

describe("hydrometer", () => {
  it("agrees with its own reading at its own temperature", () => {
    const values = valuesOf("hydrometer", {
      hydrometerReading: 0.4,
      sampleTemperature: 15,
      stemTemperature: 15,
    });
    expect(values["strength"]).toBeCloseTo(0.4, 9);
    expect(values["correction"]).toBeCloseTo(0, 9);
  });

  it("reads too strong when warm and too weak when cold", () => {
    const at = (sampleTemperature: number) =>
      valuesOf("hydrometer", { hydrometerReading: 0.4, sampleTemperature })["correction"]!;
    expect(at(30)).toBeLessThan(0);
    expect(at(10)).toBeGreaterThan(0);
  });

  it("always warns of dissolved solids", () => {
    expect(cautionsOf("hydrometer", {})).toEqual(["solids-in-liquid"]);
  });
});

describe("density-reading", () => {
  it("undoes what the strength chapter gives, at any temperature", () => {
    for (const sampleTemperature of [0, 12, 20, 35]) {
      const { density } = valuesOf("strength", { spiritStrength: 0.6, sampleTemperature });
      const back = valuesOf("density-reading", { measuredDensity: density!, sampleTemperature });
      expect(back["strength"]).toBeCloseTo(0.6, 9);
    }
  });

  it("refuses a liquid denser than water: something else is in it", () => {
    const refused = refusalsOf("density-reading", { measuredDensity: 1000, sampleTemperature: 20 });
    expect(refused.map(({ input }) => input)).toEqual(["density"]);
  });
});
