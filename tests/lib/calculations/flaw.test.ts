import { describe, expect, it } from "vitest";
import { cautionsOf, evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BATCH = {
  "flaw.stress": 7e6,
  flawDepth: 1e-4,
  geometryFactor: 1.12,
  toughness: 0.75e6,
  loadTime: 3,
};
const with_ = (moved: object) => ({ ...BATCH, ...moved });

describe("flaw", () => {
  it("runs a flaw of 2.9 mm at the design figure", () => {
    // (K/(1.12 σ))²/π, K 0.75 MPa √m, 7 MPa: Irwin’s edge crack, recalled. computed
    expect(valuesOf("flaw", BATCH)["criticalDepth"]! * 1e3).toBeCloseTo(2.913, 2);
  });

  it("reaches the toughness at the critical stress and at the critical depth", () => {
    const { criticalStress, criticalDepth } = valuesOf("flaw", BATCH);
    for (const moved of [{ "flaw.stress": criticalStress }, { flawDepth: criticalDepth }]) {
      const { stressIntensity, margin } = valuesOf("flaw", with_(moved));
      expect(stressIntensity).toBeCloseTo(0.75e6, 3);
      expect(margin).toBeCloseTo(1, 9);
    }
  });

  it("bears less for longer, and a depth that goes with the square of that", () => {
    const short = valuesOf("flaw", BATCH);
    const long = valuesOf("flaw", with_({ loadTime: 3600 }));
    // ASTM E1300, annealed glass, 1 h: 0.64. memory
    expect(long["fatigueFactor"]).toBeCloseTo(0.64, 2);
    expect(long["criticalStress"]).toBe(short["criticalStress"]);
    expect(long["lastingStress"]! / short["lastingStress"]!).toBeCloseTo(
      long["fatigueFactor"]!,
      12,
    );
    expect(long["criticalDepth"]! / short["criticalDepth"]!).toBeCloseTo(
      long["fatigueFactor"]! ** 2,
      12,
    );
  });

  it("leaves more to glass that tires less, either side of the test’s length", () => {
    const long = evaluated("flaw", with_({ loadTime: 3600 })).values["fatigueFactor"]!;
    expect(long.low).toBe(long.value);
    expect(long.high).toBeGreaterThan(long.value);
    const brief = evaluated("flaw", with_({ loadTime: 0.5 })).values["fatigueFactor"]!;
    expect(brief.low).toBeLessThan(brief.value);
    expect(brief.value).toBeGreaterThan(1);
  });

  it("starts from the rim of the chapter before, which may have no tension", () => {
    const linked = evaluated("flaw", { temperatureStep: 40 });
    expect(linked.inputs["stress"]).toBe(
      valuesOf("thermal-stress", { temperatureStep: 40 })["largestTension"],
    );
    expect(refusalsOf("flaw", { temperatureStep: 0 }).map(({ input }) => input)).toEqual([
      "stress",
    ]);
  });

  it("names no critical depth beyond any wall", () => {
    const just = 7e6 * Math.sqrt(valuesOf("flaw", BATCH)["criticalDepth"]! / 0.02);
    const at = (share: number) => valuesOf("flaw", with_({ "flaw.stress": just * share }));
    expect(at(1 + 1e-9)["criticalDepth"]).toBeCloseTo(0.02, 9);
    expect(at(1 - 1e-9)).not.toHaveProperty("criticalDepth");
  });

  it("warns where the doubtful end of the margin is below one, and not before", () => {
    const margin = (depth: number) =>
      evaluated("flaw", with_({ flawDepth: depth })).values["margin"]!;
    expect(margin(1.3e-3).low).toBeGreaterThan(1);
    expect(cautionsOf("flaw", with_({ flawDepth: 1e-3 }))).toEqual([]);
    expect(margin(2.5e-3).low).toBeLessThan(1);
    expect(margin(2.5e-3).value).toBeGreaterThan(1);
    expect(cautionsOf("flaw", with_({ flawDepth: 2.5e-3 }))).toEqual(["glass"]);
  });
});
